import { taskName } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";

/** link-needs: `from`, the second is placed only if the first is; `both`, neither is placed without the other. */
export const linkNeeds: JudgeRule = ({ prepared, byTask }) =>
  prepared.plan.links.flatMap((link) => {
    if (link.type !== "lag" || link.needs === "none") return [];
    const from = byTask.get(link.from.task);
    const to = byTask.get(link.to.task);
    const missing = to && !from ? link.from.task : from && !to && link.needs === "both" ? link.to.task : null;
    if (missing === null) return [];
    const there = (from ?? to)!;
    return [
      finding(
        "link-needs",
        "breach",
        [about("link", link.id), about("task", link.from.task), about("task", link.to.task)],
        {
          span: there.span,
          sentence: `${there.task.name} is placed, but ${taskName(prepared.plan, missing)}, which it needs, is not.`,
        },
      ),
    ];
  });

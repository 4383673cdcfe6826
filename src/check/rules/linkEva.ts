import { evaName } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";

/** link-eva: both placed, both with crew, on the same EVA. */
export const linkEva: JudgeRule = ({ prepared, byTask }) =>
  prepared.plan.links.flatMap((link) => {
    if (link.type !== "eva") return [];
    const [first, second] = [byTask.get(link.tasks[0]), byTask.get(link.tasks[1])];
    if (!first || !second || first.task.crew.count === 0 || second.task.crew.count === 0) return [];
    if (first.placement.eva === second.placement.eva) return [];
    const on = (eva: string | null): string => (eva === null ? "no EVA" : evaName(prepared.plan, eva));
    return [
      finding(
        "link-eva",
        "breach",
        [about("link", link.id), about("task", first.task.id), about("task", second.task.id)],
        {
          span: second.span,
          sentence: `${first.task.name} is on ${on(first.placement.eva)} and ${second.task.name} on ${on(second.placement.eva)}; they must be on the same EVA.`,
        },
      ),
    ];
  });

import { distance } from "../../terrain/index.ts";
import { metres } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { endPointOf } from "../grounds.ts";
import { closeAbove, DISTANCE_TOLERANCE_M } from "../thresholds.ts";

/** link-apart: both placed, end places at least so far apart. Says nothing of a task that has no place. */
export const linkApart: JudgeRule = ({ prepared, byTask }) =>
  prepared.plan.links.flatMap((link) => {
    if (link.type !== "apart") return [];
    const [first, second] = [byTask.get(link.tasks[0]), byTask.get(link.tasks[1])];
    if (!first || !second) return [];
    const one = endPointOf(prepared, first);
    const other = endPointOf(prepared, second);
    if (!one || !other) return [];
    const have = distance(one, other);
    const tooNear = have + DISTANCE_TOLERANCE_M < link.leastM;
    if (!tooNear && !closeAbove(have, link.leastM)) return [];
    return [
      finding(
        "link-apart",
        tooNear ? "breach" : "tight",
        [about("link", link.id), about("task", first.task.id), about("task", second.task.id)],
        {
          need: link.leastM,
          have,
          unit: "m",
          sentence: `${first.task.name} and ${second.task.name} are ${metres(have, "down")} apart; at least ${metres(link.leastM, "up")} is asked for.`,
        },
      ),
    ];
  });

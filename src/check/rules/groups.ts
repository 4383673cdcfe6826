import { counted, listed } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { groupsOf, missingOf } from "../groups.ts";

/** group-most: of the tasks of a group at most `most` are placed. */
export const groupMost: JudgeRule = (walkthrough) =>
  groupsOf(walkthrough).flatMap(({ group, placed }) => {
    const { id, name, most } = group;
    if (most === undefined || placed.length <= most) return [];
    return [
      finding("group-most", "breach", [about("group", id)], {
        need: most,
        have: placed.length,
        unit: "count",
        sentence: `Of ${name} at most ${most} may be done; ${placed.length} ${placed.length === 1 ? "is" : "are"} placed: ${listed(placed.map((task) => task.name))}.`,
      }),
    ];
  });

/** group-least: of the tasks of a group at least `least` are placed; where fewer are it is open, not a breach. */
export const groupLeast: JudgeRule = (walkthrough) =>
  groupsOf(walkthrough).flatMap((one) => {
    const { group, placed } = one;
    if (missingOf(one) === 0) return [];
    return [
      finding("group-least", "open", [about("group", group.id)], {
        need: group.least,
        have: placed.length,
        unit: "count",
        sentence: `Of ${group.name} at least ${group.least} of ${counted(group.tasks.length, "task")} must be done; ${placed.length} ${placed.length === 1 ? "is" : "are"} placed.`,
      }),
    ];
  });

import type { LagLink } from "../../plan/index.ts";
import { lasting } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import type { Placed } from "../placed.ts";

/** link-lag: both placed, the lag between the named ends is at least `leastS` and at most `greatestS`. */
export const linkLag: JudgeRule = ({ prepared, byTask }) =>
  prepared.plan.links.flatMap((link) => {
    if (link.type !== "lag") return [];
    const from = byTask.get(link.from.task);
    const to = byTask.get(link.to.task);
    if (!from || !to) return [];
    const lagS = endOf(to, link.to.end) - endOf(from, link.from.end);
    const tooEarly = link.leastS !== undefined && lagS < link.leastS;
    const tooLate = link.greatestS !== undefined && lagS > link.greatestS;
    if (!tooEarly && !tooLate) return [];
    const need = (tooEarly ? link.leastS : link.greatestS)!;
    const bound = tooEarly
      ? need === 0
        ? "it must not be earlier"
        : `it must be ${offset(need, "up")} it at the earliest`
      : need === 0
        ? "it must not be later"
        : `it must be ${offset(need, "down")} it at the latest`;
    return [
      finding(
        "link-lag",
        "breach",
        [about("link", link.id), about("task", from.task.id), about("task", to.task.id)],
        {
          span: to.span,
          need,
          have: lagS,
          unit: "s",
          sentence: `${to.task.name} ${verb(link.to.end)} ${offset(lagS, tooEarly ? "down" : "up")} the ${link.from.end} of ${from.task.name}; ${bound}.`,
        },
      ),
    ];
  });

function endOf({ span }: Placed, end: LagLink["from"]["end"]): number {
  return end === "start" ? span.startS : span.endS;
}

function verb(end: LagLink["from"]["end"]): string {
  return end === "start" ? "starts" : "ends";
}

/** `12 min after`, `12 min before`, `at`; `rounding` goes toward later or earlier, whichever side of zero it is. */
function offset(lagS: number, rounding: "down" | "up"): string {
  if (lagS === 0) return "at";
  if (lagS > 0) return `${lasting(lagS, rounding)} after`;
  return `${lasting(-lagS, rounding === "up" ? "down" : "up")} before`;
}

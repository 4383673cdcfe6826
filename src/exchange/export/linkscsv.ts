import type { Link, Plan } from "../../plan/index.ts";
import { clockToSecond, linkWords, numberedSentence, taskNumber } from "../../words/index.ts";
import { statedCsv } from "../csv.ts";
import { planState } from "../planstate.ts";

/**
 * Links between tasks, one a row; `madeMs` is when they are written, milliseconds since 1970. A link that the window of lists can take in again has its
 * tasks by number and its lags as h:mm:ss under heads that it knows. Any other has its sentence alone, so that no list makes another link of it.
 */
export function linksCsv(plan: Plan, madeMs: number): string {
  const heads = ["First task", "Second task", "At least", "At most", "In words"];
  return statedCsv(
    planState(plan, madeMs),
    heads,
    plan.links.map((link) => [...pairOf(plan, link), numberedSentence(plan, linkWords(plan, link))]),
  );
}

/** A list says that the second task starts so long after the first has ended, and not without it. */
function pairOf(plan: Plan, link: Link): readonly [string, string, string, string] {
  if (
    link.type !== "lag" ||
    link.from.end !== "end" ||
    link.to.end !== "start" ||
    link.needs !== "from" ||
    link.leastS === undefined ||
    link.leastS < 0
  )
    return ["", "", "", ""];
  const { from, to, leastS, greatestS } = link;
  return [
    taskNumber(plan, from.task),
    taskNumber(plan, to.task),
    clockToSecond(leastS),
    greatestS === undefined ? "" : clockToSecond(greatestS),
  ];
}

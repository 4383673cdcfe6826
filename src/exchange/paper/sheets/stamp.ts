import type { Verdict } from "../../../answers/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { counted, notGivenWords, utcDate } from "../../../words/index.ts";
import { planState } from "../../planstate.ts";
import { printable } from "../glyphs.ts";
import type { SheetStamp } from "./frame.ts";

/** What a sheet says of the plan that it is of; `printedMs` is the moment of printing, milliseconds UTC since 1970. */
export function stampOf(plan: Plan, { score }: Verdict, printedMs: number): SheetStamp {
  return {
    plan: printable(plan.title),
    revision: planState(plan),
    printed: `printed ${utcDate(printedMs - (printedMs % 60_000), 0)} UTC`,
    notCleared: notCleared(plan, score.breaches),
  };
}

/** Why nobody may fly by it: what the judge found, and what no person has said. */
function notCleared(plan: Plan, breaches: number): string | null {
  const open = notGivenWords(plan);
  const words = [
    ...(breaches === 0
      ? []
      : [`this plan has ${counted(breaches, "breach", "breaches")} and is not fit to be flown.`]),
    ...(open === null ? [] : [`${breaches === 0 ? "it" : "It"} rests on ${open}.`]),
  ];
  return words.length === 0 ? null : words.join(" ");
}

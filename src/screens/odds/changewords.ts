import type { Chance, Outcome } from "../../answers/index.ts";
import { signed } from "../../words/index.ts";
import { chanceFigure } from "../chancewords.ts";

/** What differs between two outcomes of the same simulated days. */

/** `from 82 % to 98 %`, which is no range; null where both are the same figure. */
export function figureChange(before: Chance, after: Chance): string | null {
  const [from, to] = [chanceFigure(before), chanceFigure(after)];
  return from === to ? null : `from ${from} to ${to}`;
}

/** Of worth on average, `+3` or `−71`, the loss never made smaller; null where nothing changes. */
export function worthChange(before: Outcome, after: Outcome): string | null {
  const worth = Math.floor(after.meanWorth - before.meanWorth);
  return worth === 0 ? null : signed(worth);
}

import type { Outcome, Wished } from "../../answers/index.ts";
import type { Choice } from "./choose.ts";
import { missingOf } from "./missing.ts";

/**
 * The day for `wish`: what was chosen for it, unless that is sure to fall short and what was chosen for another wish comes nearer. A search
 * by worth less the price of what is missing gives a chance away where enough worth is to be had for it; who asks for a chance that no day
 * has is owed the day that comes nearest. Judged by the days that were chosen by, so that those that are shown stay nobody's choice. Null
 * where nothing was chosen at all.
 */
export function dayNearest(
  wish: Wished["wish"],
  own: Choice | null,
  choices: readonly (Choice | null)[],
): Wished | null {
  if (own && !isSureShort(wish, own.chosenBy)) return own.day;
  const nearest = choices.reduce(
    (best, one) => (one && (!best || isNearer(wish, one.chosenBy, best.chosenBy)) ? one : best),
    own,
  );
  return nearest && wishedFor(wish, nearest);
}

/** True where so many days cannot bear that the wish is met. */
function isSureShort(wish: Wished["wish"], { home, must }: Outcome): boolean {
  return must.high < wish.must || home.high < wish.home;
}

/** True where less of the chances wanted is missing; of as much, where more is done. */
function isNearer(wish: Wished["wish"], a: Outcome, b: Outcome): boolean {
  return (missingOf(wish, a) - missingOf(wish, b) || b.meanWorth - a.meanWorth) < 0;
}

/** The same day under another wish. */
function wishedFor({ home, must }: Wished["wish"], { day }: Choice): Wished {
  const { outcome } = day;
  return { ...day, wish: { home, must }, meets: outcome.home.share >= home && outcome.must.share >= must };
}

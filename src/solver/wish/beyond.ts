import type { Wish } from "../simulate/value.ts";

/** Standard errors that are asked for beyond a chance: of days that only just have it half do not on other days, and the best of several was lucky. */
const ERRORS = 2;

/** The wish with what counting on so many days may err by on top, of both chances, since either may be just missed. */
export function beyond(wish: Wish, days: number): Wish {
  const most = (share: number): number =>
    Math.min(1, share + ERRORS * Math.sqrt((share * (1 - share)) / days));
  return { ...wish, home: most(wish.home), must: most(wish.must) };
}

import type { Outcome, Wished } from "../../answers/index.ts";

/** How much of the chances wanted is missing, both together. */
export function missingOf(wish: Wished["wish"], { home, must }: Outcome): number {
  return Math.max(0, wish.must - must.share) + Math.max(0, wish.home - home.share);
}

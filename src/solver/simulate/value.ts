import type { Problem } from "../problem/problem.ts";
import type { Seen } from "./seen.ts";

/** What a day is packed for: shares, and what a whole missing chance costs, worth. */
export interface Wish {
  readonly home: number;
  readonly must: number;
  readonly price: number;
}

/** A percent of missing chance costs so many mean worths of a task. */
const PRICE = 0.3;

/** The wish for chances of `home` and `must`, priced for `problem`. */
export function wishFor({ worth, activities }: Problem, home: number, must: number): Wish {
  const mean = worth.reduce((sum, one) => sum + one, 0) / Math.max(1, activities);
  return { home: Math.min(1, home), must: Math.min(1, must), price: 100 * PRICE * Math.max(1, mean) };
}

/** Whether a day has both chances that are wanted. */
export function meetsWish(
  { home, must }: Pick<Wish, "home" | "must">,
  seen: Pick<Seen, "home" | "must">,
): boolean {
  return seen.home >= home && seen.must >= must;
}

/** Worth on average, less the price of what is missing of the chances wanted. */
export function valueOf(wish: Wish, seen: Seen): number {
  return seen.worth - wish.price * (Math.max(0, wish.must - seen.must) + Math.max(0, wish.home - seen.home));
}

import type { Random } from "../../kernel/index.ts";
import { nearestTo } from "../search/nearest.ts";
import type { SearchParameters } from "../search/parameters.ts";
import { longestOf, stringsOf } from "../search/stringsizes.ts";
import type { Tours } from "./tours.ts";

/** Takes strings of neighbours off neighbouring tours (Christiaens & Vanden Berghe 2020, Transp Sci 54:417). */
export class Strings {
  private readonly tours: Tours;
  private readonly random: Random;
  private readonly parameters: SearchParameters;
  /** By activity all others, nearest first; made when they are first asked for. */
  private readonly near: Int32Array[] = [];

  constructor(tours: Tours, random: Random, parameters: SearchParameters) {
    this.tours = tours;
    this.random = random;
    this.parameters = parameters;
  }

  /** Takes something off around `seed`; marks in `open` the routes and in `taken` the activities. */
  take(seed: number, open: Uint8Array, taken: Uint8Array): void {
    const { tours, random, parameters } = this;
    const { routeOf, length, ground } = tours;
    let used = 0;
    let count = 0;
    for (let r = 0; r < ground.routes; r += 1) {
      if (length[r] === 0) continue;
      used += 1;
      count += length[r]!;
    }
    if (used === 0) return;
    const longest = longestOf(count, used, parameters);
    let strings = stringsOf(longest, used, parameters, random.next());
    const near = (this.near[seed] ??= nearestTo(ground.problem, seed));
    for (let k = -1; k < near.length && strings > 0; k += 1) {
      const a = k < 0 ? seed : near[k]!;
      const r = routeOf[a]!;
      if (r < 0 || open[r] === 1) continue;
      strings -= 1;
      open[r] = 1;
      this.takeAround(a, r, 1 + Math.floor(random.next() * Math.min(longest, length[r]!)), taken);
    }
  }

  /** Takes `count` activities in a row off route `r`, `a` among them at a random place. */
  private takeAround(a: number, r: number, count: number, taken: Uint8Array): void {
    const { tours, random } = this;
    const { node, length, width } = tours;
    const first = r * width;
    let at = 1;
    while (node[first + at] !== a) at += 1;
    const from = Math.max(1, at - random.below(count));
    const end = Math.min(from + count, length[r]! + 1);
    for (let k = from; k < end; k += 1) taken[node[first + k]!] = 1;
    tours.cut(r, from, end - from);
  }
}

import type { Fit } from "../../answers/index.ts";
import { gridFrom, instant } from "../../kernel/index.ts";
import type { Bands } from "./bands.ts";
import type { Problem } from "../problem/problem.ts";

/** The first start on the grid, or pinned, at which the task fits beside the others as they are. */
export function firstFit(bands: Bands, { plan, gridS }: Problem, a: number): Fit | null {
  let first: Fit | null = null;
  for (const { eva, crew, fixed } of bands.of(plan.tasks[a]!.id)) {
    for (const { startS: fromS, endS } of fixed) {
      const startS = plan.tasks[a]!.pin?.startS ?? instant(gridFrom(fromS, gridS));
      if (startS < fromS || startS >= endS) continue;
      if (!first || startS < first.startS) first = { eva, crew, startS };
      break;
    }
  }
  return first;
}

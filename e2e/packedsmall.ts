import { readFileSync } from "node:fs";
import { parseText } from "../src/plan/index.ts";
import { packRun } from "../src/solver/index.ts";

/** The small plan with a day packed into it, the same each time. */
export function packedSmall(): string {
  const read = parseText(readFileSync("public/plans/small.json", "utf8"));
  if (!read.ok) throw new Error("the small plan is no plan");
  const run = packRun(read.value, { seed: 1, iterations: 400, clock: () => 0 });
  while (run.step(1)) continue;
  return JSON.stringify({ ...read.value, schedule: run.best() });
}

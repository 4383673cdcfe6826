import { judgeFor } from "../../src/check/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { type ReadyName, readyPlan } from "../readyplan.ts";
import { processorSeconds } from "./clock.ts";

/** What a second worker's seed is beside the first one's, as a team of engines has it. */
const SEED_STEP = 7919;

/**
 * `npm run bench -- growth [--plan large] [--seeds 1,2,3] [--seconds 1,3,5] [--long 60]`: packs of so many processor seconds against the
 * same seed's long one, and the better of two seeds after 5 s, as two workers pack that do not hear of each other, against one after 10 s.
 */
export async function run(args: string[]): Promise<void> {
  const option = (name: string, otherwise: string): string => {
    const at = args.indexOf(`--${name}`);
    return at < 0 ? otherwise : args[at + 1]!;
  };
  const plan = readyPlan(option("plan", "large") as ReadyName);
  const shorts = option("seconds", "1,3,5").split(",").map(Number);
  const long = Number(option("long", "60"));
  for (const seed of option("seeds", "1,2,3").split(",").map(Number)) {
    const best = await packed(plan, seed, long);
    console.log(`seed ${seed}: ${best} after ${long} s`);
    for (const seconds of shorts) {
      const worth = await packed(plan, seed, seconds);
      console.log(`  ${String(seconds).padStart(3)} s  ${worth}  ${(100 * (worth / best - 1)).toFixed(2)} %`);
    }
    const two = Math.max(await packed(plan, seed, 5), await packed(plan, seed + SEED_STEP, 5));
    const one = await packed(plan, seed, 10);
    console.log(`  two for 5 s ${two}, one for 10 s ${one}: ${(100 * (two / one - 1)).toFixed(2)} %`);
  }
}

/** The worth of a pack; throws where the judge finds a breach or a must-do task is left out. */
async function packed(plan: Plan, seed: number, seconds: number): Promise<number> {
  const pack = packRun(plan, { seed, seconds, clock: processorSeconds });
  while (pack.step(0.016)) await Promise.resolve();
  const { worth, breaches, mustLeftOut } = judgeFor(plan)(pack.best()).score;
  if (breaches > 0 || mustLeftOut > 0)
    throw new Error(`seed ${seed}: ${breaches} breaches, ${mustLeftOut} left out`);
  return worth;
}

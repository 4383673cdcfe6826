import { judgeFor } from "../../src/check/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { type ReadyName, readyPlan } from "../readyplan.ts";
import { processorSeconds } from "./clock.ts";

/** What a cold process took, processor ms: until its modules were there; from then on; and in all. */
export interface Cold {
  readonly modulesMs: number;
  readonly startMs: number;
  readonly soundMs: number;
  readonly allMs: number;
  readonly iterations: number;
  readonly worth: number;
}

/** A slice of search between two looks, s. */
const SLICE_S = 0.002;
const MOST_S = 60;

// The process that `bench -- cold` starts, once a plan and seed: `NAME SEED`.
const ms = (): number => processorSeconds() * 1000;
const modulesMs = ms();
const [name, seed] = process.argv.slice(2);
const plan = readyPlan(name as ReadyName);
const run = packRun(plan, { seed: Number(seed), seconds: MOST_S, clock: processorSeconds });
const startMs = ms() - modulesMs;
const judge = judgeFor(plan);
for (let seen = -1; ;) {
  const goesOn = run.step(SLICE_S);
  const { improvements, mustPlaced, mustTotal, iterations } = run.progress();
  if (improvements > seen && mustPlaced === mustTotal) {
    const { breaches, mustLeftOut, worth } = judge(run.best()).score;
    if (breaches === 0 && mustLeftOut === 0) {
      const allMs = ms();
      const cold: Cold = { modulesMs, startMs, soundMs: allMs - modulesMs, allMs, iterations, worth };
      console.log(JSON.stringify(cold));
      break;
    }
  }
  if (!goesOn) throw new Error(`no sound day of ${plan.title} in ${MOST_S} s`);
  seen = improvements;
}

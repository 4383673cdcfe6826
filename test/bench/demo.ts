import { judgeFor } from "../../src/check/index.ts";
import { readyPlan } from "../readyplan.ts";
import { packRun } from "../../src/solver/index.ts";
import { processorSeconds } from "./clock.ts";

/** A short pack, and the long one that it is measured by, s. */
const SHORT_S = 2.9;
const LONG_S = 60;

/**
 * `npm run bench -- demo [--seeds 1,2,3]`: on the demo plan, processor seconds until the first schedule without breach and with every must-do
 * task, and what a short pack reaches of a long one's worth. The judge counts the breaches.
 */
export async function run(args: string[]): Promise<void> {
  const at = args.indexOf("--seeds");
  const seeds = (at < 0 ? "1,2,3" : args[at + 1]!).split(",").map(Number);
  const plan = readyPlan("demo");
  const judge = judgeFor(plan);
  console.log("seed  no breach s  all must-do s  worth short  long  short of long %  breaches");
  for (const seed of seeds) {
    let soundS = Infinity;
    let mustS = Infinity;
    const pack = async (seconds: number): Promise<{ worth: number; breaches: number }> => {
      const run = packRun(plan, { seed, seconds, clock: processorSeconds });
      let seen = 0;
      while (run.step(0.005)) {
        const now = run.progress();
        if (seconds === SHORT_S && now.improvements > seen && mustS === Infinity) {
          seen = now.improvements;
          const { score } = judge(run.best());
          if (score.breaches === 0) soundS = Math.min(soundS, now.seconds);
          if (score.breaches === 0 && score.mustLeftOut === 0) mustS = now.seconds;
        }
        await Promise.resolve();
      }
      return judge(run.best()).score;
    };
    const short = await pack(SHORT_S);
    const long = await pack(LONG_S);
    console.log(
      [
        String(seed).padStart(4),
        soundS.toFixed(3).padStart(12),
        mustS.toFixed(3).padStart(14),
        String(short.worth).padStart(12),
        String(long.worth).padStart(5),
        (100 * (1 - short.worth / long.worth)).toFixed(2).padStart(16),
        String(short.breaches + long.breaches).padStart(9),
      ].join(" "),
    );
  }
}

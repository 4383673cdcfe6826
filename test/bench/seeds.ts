import { judgeFor } from "../../src/check/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { type ReadyName, readyPlan } from "../readyplan.ts";
import { processorSeconds } from "./clock.ts";

/**
 * `npm run bench -- seeds [--plan small] [--seeds 40] [--seconds 2]`: the same plan packed from many seeds: worth, worst margin and
 * walked distance of each day, and how far the worst of each lies from the best.
 */
export async function run(args: string[]): Promise<void> {
  const option = (name: string, otherwise: string): string => {
    const at = args.indexOf(`--${name}`);
    return at < 0 ? otherwise : args[at + 1]!;
  };
  const plan = readyPlan(option("plan", "small") as ReadyName);
  const seconds = Number(option("seconds", "2"));
  const judge = judgeFor(plan);
  const scores = [];
  console.log(`${plan.title}, ${seconds} s; seed  worth  worst margin %  walked m  finish s  breaches`);
  for (let seed = 1; seed <= Number(option("seeds", "40")); seed += 1) {
    const pack = packRun(plan, { seed, seconds, clock: processorSeconds });
    while (pack.step(0.016)) await Promise.resolve();
    const score = judge(pack.best()).score;
    scores.push(score);
    console.log(
      [
        String(seed).padStart(4),
        String(score.worth).padStart(6),
        (score.worstMargin / 100).toFixed(2).padStart(15),
        String(score.walkM).padStart(9),
        String(score.finishS).padStart(9),
        String(score.breaches).padStart(9),
      ].join(" "),
    );
  }
  console.log(
    `apart at most: worth ${apart(scores.map((one) => one.worth))} %, worst margin ${apart(scores.map((one) => one.worstMargin))} %, walked ${apart(scores.map((one) => one.walkM))} %`,
  );
}

/** From the least to the greatest, % of the greatest. */
function apart(values: readonly number[]): string {
  const most = Math.max(...values);
  return most === 0 ? "0.00" : ((100 * (most - Math.min(...values))) / most).toFixed(2);
}

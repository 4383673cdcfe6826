import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { judgeFor } from "../../src/check/index.ts";
import { greedy, packRun } from "../../src/solver/index.ts";
import { processorSeconds } from "./clock.ts";
import { toptwPlan } from "./toptw.plan.ts";

/** Lists of known values: instance, number of routes, best known value, whatever else. */
const LISTS = ["best-known.csv", "proven.csv"];

/**
 * `npm run bench -- toptw DIR --seconds S --seed N [--only GLOB] [--m 1,2] [--prove P]`: every instance below
 * DIR for which best-known.csv or proven.csv gives a value, packed for S seconds and judged by src/check; gap to the known value in
 * percent. With P, up to so many seconds more go into an upper bound, its gap in percent too.
 */
export async function run(args: string[]): Promise<void> {
  const folder = args[0];
  if (folder === undefined) throw new Error("give the folder of the instances, the one with best-known.csv");
  const option = (name: string): string | undefined => {
    const at = args.indexOf(`--${name}`);
    return at < 0 ? undefined : args[at + 1];
  };
  const seconds = Number(option("seconds") ?? 1);
  const seed = Number(option("seed") ?? 1);
  const proveSeconds = Number(option("prove") ?? 0);
  const only = new RegExp(
    `^${(option("only") ?? "*").replace(/[.+^${}()|[\]\\]/g, "\\$&").replace(/\*/g, ".*")}$`,
  );
  const teams = option("m")?.split(",");
  const listed = readdirSync(folder).find((file) => LISTS.includes(file));
  if (listed === undefined) throw new Error(`no ${LISTS.join(" or ")} in ${folder}`);
  const known = readFileSync(join(folder, listed), "utf8").trim().split("\n").slice(1);
  const files = new Map(
    readdirSync(folder, { recursive: true, encoding: "utf8" })
      .filter((file) => file.endsWith(".txt"))
      .map((file) => [file.replace(/^.*\//, "").replace(/\.txt$/, ""), join(folder, file)]),
  );
  const gaps: number[] = [];
  const over: number[] = [];
  let proved = 0;
  let breaches = 0;
  console.log(`processor seconds ${seconds}, seed ${seed}`);
  console.log(
    "instance       m   best known   found  greedy   gap %  iterations  breaches" +
      (proveSeconds > 0 ? "  bound  over %  proved" : ""),
  );
  for (const line of known) {
    const [name, m, bestKnown] = line.split(",") as [string, string, string];
    const file = files.get(name);
    if (file === undefined || !only.test(name) || (teams && !teams.includes(m))) continue;
    const plan = toptwPlan(file, Number(m));
    const packing = packRun(plan, { seed, seconds, proveSeconds, clock: processorSeconds });
    while (packing.step(0.016)) await Promise.resolve();
    const judge = judgeFor(plan);
    const { score } = judge(packing.best());
    const gap = (100 * (Number(bestKnown) - score.worth)) / Number(bestKnown);
    gaps.push(gap);
    const { bound, stopped, iterations } = packing.progress();
    if (bound !== null && bound < score.worth)
      throw new Error(`${name}: bound ${bound} below ${score.worth}`);
    const overBy = bound === null ? Infinity : (100 * (bound - Number(bestKnown))) / Number(bestKnown);
    if (proveSeconds > 0) over.push(overBy);
    if (bound === score.worth) proved += 1;
    breaches += score.breaches;
    console.log(
      [
        name.padEnd(13),
        m.padStart(2),
        bestKnown.padStart(12),
        String(score.worth).padStart(7),
        String(judge(greedy(plan)).score.worth).padStart(7),
        gap.toFixed(2).padStart(7),
        String(iterations).padStart(11),
        String(score.breaches).padStart(9),
        ...(proveSeconds > 0
          ? [String(bound ?? "").padStart(6), overBy.toFixed(2).padStart(7), (stopped ?? "").padStart(11)]
          : []),
      ].join(" "),
    );
  }
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  const worst = gaps.reduce((most, gap) => Math.max(most, gap), -Infinity);
  console.log(
    `${gaps.length} values: mean gap ${mean.toFixed(3)} %, worst ${worst.toFixed(2)} %, better than best known ${gaps.filter((gap) => gap < 0).length}, breaches ${breaches}`,
  );
  if (proveSeconds > 0)
    console.log(
      `bound over the known value at worst ${over.reduce((most, one) => Math.max(most, one), -Infinity).toFixed(2)} %, proved ${proved} of ${gaps.length}`,
    );
}

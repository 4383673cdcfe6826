import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { judgeFor } from "../../src/check/index.ts";
import { greedy, packRun } from "../../src/solver/index.ts";
import { processorSeconds } from "./clock.ts";
import { toptwPlan } from "./toptw.plan.ts";

/** Lists of known values: instance, number of routes, best known value, whatever else. */
const LISTS = ["best-known.csv", "proven.csv"];

/**
 * `npm run bench -- toptw DIR --seconds S --seed N [--only GLOB] [--m 1,2]`: every instance below DIR for which
 * best-known.csv gives a value, packed for S seconds and judged by src/check; gap to best known in percent.
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
  let breaches = 0;
  console.log(`processor seconds ${seconds}, seed ${seed}`);
  console.log("instance       m   best known   found  greedy   gap %  iterations  breaches");
  for (const line of known) {
    const [name, m, bestKnown] = line.split(",") as [string, string, string];
    const file = files.get(name);
    if (file === undefined || !only.test(name) || (teams && !teams.includes(m))) continue;
    const plan = toptwPlan(file, Number(m));
    const packing = packRun(plan, { seed, seconds, clock: processorSeconds });
    while (packing.step(0.016)) await Promise.resolve();
    const judge = judgeFor(plan);
    const { score } = judge(packing.best());
    const gap = (100 * (Number(bestKnown) - score.worth)) / Number(bestKnown);
    gaps.push(gap);
    breaches += score.breaches;
    console.log(
      [
        name.padEnd(13),
        m.padStart(2),
        bestKnown.padStart(12),
        String(score.worth).padStart(7),
        String(judge(greedy(plan)).score.worth).padStart(7),
        gap.toFixed(2).padStart(7),
        String(packing.progress().iterations).padStart(11),
        String(score.breaches).padStart(9),
      ].join(" "),
    );
  }
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  const worst = gaps.reduce((most, gap) => Math.max(most, gap), -Infinity);
  console.log(
    `${gaps.length} values: mean gap ${mean.toFixed(3)} %, worst ${worst.toFixed(2)} %, better than best known ${gaps.filter((gap) => gap < 0).length}, breaches ${breaches}`,
  );
}

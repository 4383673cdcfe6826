import { keep } from "./kept.ts";
import { askedOf, gapTo, greatest, mean, packedValue } from "./orienteering.ts";
import { toptwPlan } from "./toptw.plan.ts";

/**
 * `npm run bench -- toptw DIR --seconds S --seed N [--only GLOB] [--m 1,2] [--prove P] [--keep KEPT]`: every instance
 * below DIR for which best-known.csv or proven.csv gives a value (instance, number of routes, best known value), packed for S seconds and judged by
 * src/check; gap to the known value in percent. With P, up to so many seconds more go into an upper bound, its gap in percent too. Tours of the known
 * value or a better one are written to KEPT, for `bench -- kept`.
 */
export async function run(args: string[]): Promise<void> {
  const { asked, listed } = askedOf(args);
  const { proveSeconds } = asked;
  const teams = asked.option("m")?.split(",");
  const folder = asked.option("keep");
  const gaps: number[] = [];
  const over: number[] = [];
  let proved = 0;
  let breaches = 0;
  console.log(`processor seconds ${asked.seconds}, seed ${asked.seed}`);
  console.log(
    "instance       m   best known   found  greedy   gap %  iterations  breaches" +
      (proveSeconds > 0 ? "  bound  over %  proved" : ""),
  );
  for (const { name, file, columns } of listed) {
    const [m = "", bestKnown = ""] = columns;
    if (teams && !teams.includes(m)) continue;
    const found = await packedValue(toptwPlan(file, Number(m)), asked);
    const gap = gapTo(Number(bestKnown), found.worth);
    gaps.push(gap);
    if (folder !== undefined && gap <= 0 && found.breaches === 0)
      keep(folder, name, Number(m), found.schedule, found.worth);
    const overBy = found.bound === null ? Infinity : -gapTo(Number(bestKnown), found.bound);
    if (proveSeconds > 0) over.push(overBy);
    if (found.bound === found.worth) proved += 1;
    breaches += found.breaches;
    console.log(
      [
        name.padEnd(13),
        m.padStart(2),
        bestKnown.padStart(12),
        String(found.worth).padStart(7),
        String(found.greedy).padStart(7),
        gap.toFixed(2).padStart(7),
        String(found.iterations).padStart(11),
        String(found.breaches).padStart(9),
        ...(proveSeconds > 0
          ? [
              String(found.bound ?? "").padStart(6),
              overBy.toFixed(2).padStart(7),
              (found.stopped ?? "").padStart(11),
            ]
          : []),
      ].join(" "),
    );
  }
  console.log(
    `${gaps.length} values: mean gap ${mean(gaps).toFixed(3)} %, worst ${greatest(gaps).toFixed(2)} %, better than best known ${gaps.filter((gap) => gap < 0).length}, breaches ${breaches}`,
  );
  if (proveSeconds > 0)
    console.log(
      `bound over the known value at worst ${greatest(over).toFixed(2)} %, proved ${proved} of ${gaps.length}`,
    );
}

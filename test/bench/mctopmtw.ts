import { mctopmtwPlan } from "./mctopmtw.plan.ts";
import { askedOf, gapTo, greatest, mean, packedValue } from "./orienteering.ts";

/**
 * `npm run bench -- mctopmtw DIR --seconds S --seed N [--only GLOB]`: every instance below DIR for which best-known.csv gives the value of the
 * solution that it was built around and the best published one (instance, tours, reachable, published best), packed for S seconds and judged
 * by src/check; gaps to both in percent, by set: its tours and the first letters of its name.
 */
export async function run(args: string[]): Promise<void> {
  const { asked, listed } = askedOf(args);
  const sets = new Map<string, { readonly reachable: number[]; readonly published: number[] }>();
  let breaches = 0;
  console.log(`processor seconds ${asked.seconds}, seed ${asked.seed}`);
  console.log("instance   reachable  published   found  greedy  to reachable %  to published %  breaches");
  for (const { name, file, columns } of listed) {
    const [reachable = 0, published = 0] = columns.slice(1).map(Number);
    const found = await packedValue(mctopmtwPlan(file), asked);
    const gaps = [gapTo(reachable, found.worth), gapTo(published, found.worth)] as const;
    const set = /^\d-[a-z]+/.exec(name)?.[0] ?? name;
    const known = sets.get(set) ?? { reachable: [], published: [] };
    sets.set(set, known);
    known.reachable.push(gaps[0]);
    known.published.push(gaps[1]);
    breaches += found.breaches;
    console.log(
      [
        name.padEnd(10),
        String(reachable).padStart(9),
        String(published).padStart(10),
        String(found.worth).padStart(7),
        String(found.greedy).padStart(7),
        gaps[0].toFixed(2).padStart(15),
        gaps[1].toFixed(2).padStart(15),
        String(found.breaches).padStart(9),
      ].join(" "),
    );
  }
  for (const [set, { reachable, published }] of sets)
    console.log(
      `${set.padEnd(6)} ${String(reachable.length).padStart(3)} values: mean gap to reachable ${mean(reachable).toFixed(3)} %, to published ${mean(published).toFixed(3)} %`,
    );
  const all = [...sets.values()];
  const reachable = all.flatMap((one) => one.reachable);
  const published = all.flatMap((one) => one.published);
  console.log(
    `${reachable.length} values: mean gap to reachable ${mean(reachable).toFixed(3)} % (worst ${greatest(reachable).toFixed(2)} %), to published ${mean(published).toFixed(3)} % (worst ${greatest(published).toFixed(2)} %), breaches ${breaches}`,
  );
}

import { readFileSync } from "node:fs";
import { check } from "../../src/check/index.ts";
import { siteGround, siteLight, siteRings, siteWalks } from "../../src/engine/sitework.ts";
import { parseText, type Plan } from "../../src/plan/index.ts";
import { greedy } from "../../src/solver/index.ts";
import { withPlaceAt } from "../../src/session/site.ts";
import { gaitsOf, homeOf, waysOf } from "../../src/terrain/index.ts";

/**
 * What the site's map asks of the core, on the demo plan with a greedy day: a place put elsewhere a few metres at a
 * time (its ways, its walk-backs, the whole plan judged again), the light of a minute, the limits of the walk back.
 * Processor milliseconds, so that other work on the machine does not count.
 */
export function run(): Promise<void> {
  const plan = ready();
  const rows = new Map<string, number[]>();
  const time = (name: string, work: () => unknown): void => {
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    rows.set(name, [...(rows.get(name) ?? []), (user + system) / 1000]);
  };
  time("ground and contours, first time", () => siteGround(plan));
  for (let k = 1; k <= ROUNDS; k += 1) {
    const moved = withPlaceAt(plan, "pebble-row", 320 + 3 * k, 210 - 2 * k);
    const gaits = gaitsOf(moved);
    const ways = () => waysOf(moved.site, gaits.planned);
    time("a place moved: its ways", ways);
    time("a place moved: walk-backs and worst points", () => homeOf(moved.site, ways(), gaits.back));
    time("a place moved: the whole plan judged again", () => check(moved, moved.schedule));
    time("a place moved: the answer made", () => siteWalks(moved, moved.schedule));
    const atS = 2000 * k;
    time("light of a minute", () => siteLight(plan, atS));
    const amounts = { oxygen: 0.4 - k / 200, co2: 0.5, water: 3, battery: 200 };
    const left = [{ eva: "eva-1", crew: "ev1", amounts }];
    time("limits of the walk back", () => siteRings(plan, left));
  }
  console.log("demo plan, processor ms".padEnd(48), "median     worst");
  for (const [name, list] of rows) {
    list.sort((a, b) => a - b);
    const cells = [list[Math.floor(list.length / 2)]!, list.at(-1)!].map((ms) => ms.toFixed(1).padStart(9));
    console.log(name.padEnd(45), ...cells);
  }
  return Promise.resolve();
}

const ROUNDS = 20;

function ready(): Plan {
  const read = parseText(readFileSync("public/plans/demo.json", "utf8"));
  if (!read.ok) throw new Error("the demo plan cannot be read");
  return { ...read.value, schedule: greedy(read.value) };
}

import { random } from "../../src/kernel/index.ts";
import { type Gait, homeOf, reachOn, isochrones, reliefOf, waysOf } from "../../src/terrain/index.ts";
import type { SiteInput } from "../../src/terrain/ground.ts";
import type { StoredGround } from "../../src/terrain/relief.ts";
import { networkOf, trailsBetween } from "../../src/terrain/network.ts";

/**
 * Ways over made ground of 400 by 400 points: 20 places all pairs, one place moved, one more, the way home and its
 * lines. Processor seconds, so that other work on the machine does not count; another ground for every round, so that
 * nothing is remembered but where the row says so.
 */
export function run(args: string[]): Promise<void> {
  const rounds = Number(args[args.indexOf("--rounds") + 1]) || 5;
  const rows = new Map<string, number[]>();
  const time = <T>(name: string, work: () => T): T => {
    const before = process.cpuUsage();
    const result = work();
    const spent = process.cpuUsage(before);
    const list = rows.get(name) ?? [];
    list.push((spent.user + spent.system) / 1000);
    rows.set(name, list);
    return result;
  };
  for (let round = 0; round < rounds; round += 1) {
    const ground = madeGround(round + 1);
    const grid = time("made ground", () => reliefOf(ground));
    const site = siteOf(round + 1);
    const relief = { grid, detour: 1.05, downDeg: 20, acrossDeg: 20, effort: null };
    const gait: Gait = { speedMs: 0.9, detour: 1.1, greatestSlopeDeg: 20, relief };
    const ways = time("all pairs of 20 places", () => waysOf(site, gait));
    time("walk-backs and worst points of all ways", () => homeOf(site, ways, gait));
    const moved = {
      ...site,
      places: site.places.map((place, i) => (i === 7 ? { ...place, eastM: place.eastM + 17 } : place)),
    };
    const other = time("one place moved: all ways", () => waysOf(moved, gait));
    time("one place moved: walk-backs and worst points", () => homeOf(moved, other, gait));
    const network = networkOf(grid, { ...TERMS, keepOuts: site.keepOuts.map((one) => one.shape) });
    time("one more place: trails there and back", () =>
      trailsBetween(network, [...site.places, { eastM: 123 + round, northM: 45 }]),
    );
    const reach = time("reach of the whole grid", () => reachOn(site, gait)!);
    time("lines of equal walk-back", () => isochrones(reach, 900, 0.9));
  }
  console.log("400 x 400 points, 20 places, processor ms".padEnd(48), "median     worst");
  for (const [name, list] of rows) {
    list.sort((a, b) => a - b);
    const cells = [list[Math.floor(list.length / 2)]!, list.at(-1)!].map((ms) => ms.toFixed(1).padStart(9));
    console.log(name.padEnd(45), ...cells);
  }
  return Promise.resolve();
}

const TERMS = { detour: 1.05, upDeg: 20, downDeg: 20, acrossDeg: 20, effort: null };

function madeGround(seed: number): StoredGround {
  const laid = { westM: -1000, southM: -1000, cellM: 5, columns: 400, rows: 400 };
  return {
    type: "made",
    ...laid,
    seed,
    roughnessM: 6,
    hurst: 0.9,
    cratered: 0.04,
    steepness: 2,
    largestM: 300,
  };
}

function siteOf(seed: number): SiteInput {
  const source = random(seed);
  const far = (): number => Math.round(source.between(-900, 900));
  const place = (id: string, kind: string, eastM: number, northM: number) => ({
    id,
    kind,
    eastM,
    northM,
    upM: 0,
  });
  return {
    places: [
      place("lander", "lander", 0, 0),
      ...Array.from({ length: 19 }, (_, i) => place(`p${i}`, "station", far(), far())),
    ],
    keepOuts: [
      { kind: "walking", shape: { type: "disc", eastM: far(), northM: far(), radiusM: 100 } },
      { kind: "walking", shape: { type: "disc", eastM: far(), northM: far(), radiusM: 60 } },
    ],
    legs: [],
  };
}

/** `npm run bench -- <what> [arguments]`: one module a benchmark, each with `run(args)`. */
export interface Bench {
  run(args: string[]): Promise<void>;
}

const benches: Record<string, { readonly says: string; readonly load: () => Promise<Bench> }> = {
  check: { says: "one full judgement and one drag re-check, by plan size", load: () => import("./check.ts") },
  drag: {
    says: "a frame of a drag, a pan and a zoom in a real browser: [--frames N] [--plan NAME] [--tasks N] [--slide] [--profile] [--raster] [--pace] [--built]",
    load: () => import("./drag.ts"),
  },
  glance: {
    says: "what can be read of the day screen at a glance, in a real browser: names, lanes, texts on texts: [--plans demo,large] [--sizes 1280x720] [--themes light,dark,dim] [--views V,...] [--list] [--pictures DIR] [--built]",
    load: () => import("./glance.ts"),
  },
  inner: {
    says: "the core's inner works on 60 tasks: [--seed N] [--iterations N]",
    load: () => import("./inner.ts"),
  },
  ways: { says: "ways and walk-backs over made ground: [--rounds n]", load: () => import("./ways.ts") },
  load: {
    says: "sizes of the built first load, first and largest paint on a slow processor: [--slower 4] [--plan demo] [--rounds 3]",
    load: () => import("./load.ts"),
  },
  memory: {
    says: "what page and workers hold after long use in a real browser: [--rounds 12] [--edits 100] [--packs 8] [--seconds 2]",
    load: () => import("./memory.ts"),
  },
  site: {
    says: "what the map asks of the core: a place moved, light, limits",
    load: () => import("./site.ts"),
  },
  odds: {
    says: "2,000 simulated days and the late tables of the ready plans, in processor time",
    load: () => import("./odds.ts"),
  },
  holds: {
    says: "days packed for what will happen beside blind stretches: [--seconds S] [--seeds 1] [--plans small,demo,large,60-1] [--made N] [--generous] [--short] [--lateness D,O]",
    load: () => import("./holds.ts"),
  },
  demo: {
    says: "the demo plan: time to a sound day, and a short pack beside a long one: [--seeds 1,2,3]",
    load: () => import("./demo.ts"),
  },
  cold: {
    says: "a process that has never seen a plan: until the first sound day with every must-do task: [--plans demo,large] [--seeds 10]",
    load: () => import("./cold.ts"),
  },
  growth: {
    says: "short packs beside a long one, two workers beside one: [--plan large] [--seeds 1,2,3] [--seconds 1,3,5] [--long 60]",
    load: () => import("./growth.ts"),
  },
  seeds: {
    says: "one plan packed from many seeds: [--plan small] [--seeds 40] [--seconds 2]",
    load: () => import("./seeds.ts"),
  },
  toptw: {
    says: "team orienteering with time windows: DIR --seconds S --seed N [--only GLOB] [--m 1,2] [--prove P] [--keep KEPT]",
    load: () => import("./toptw.ts"),
  },
  kept: {
    says: "tours that toptw kept, gone over their instances without the product: DIR KEPT",
    load: () => import("./kept.ts"),
  },
  mctopmtw: {
    says: "the same with several windows, fees and kinds of points: DIR --seconds S --seed N [--only GLOB]",
    load: () => import("./mctopmtw.ts"),
  },
  rcpsp: {
    says: "projects with shared equipment: DIR --seconds S --seed N [--only REGEXP] [--limit n] [--verbose]",
    load: () => import("./rcpsp.ts"),
  },
  rcpspmax: {
    says: "projects with least and greatest lags: DIR --seconds S --seed N [--only REGEXP] [--limit n] [--verbose]",
    load: () => import("./rcpspmax.ts"),
  },
  jobshop: {
    says: "job shops: DIR --seconds S --seed N [--only REGEXP] [--limit n] [--verbose]",
    load: () => import("./jobshop.ts"),
  },
};

const [name, ...args] = process.argv.slice(2);
const bench = name === undefined ? undefined : benches[name];
if (!bench) {
  console.error("benchmarks:");
  for (const [key, { says }] of Object.entries(benches)) console.error(`  ${key.padEnd(10)} ${says}`);
  process.exitCode = 2;
} else {
  await (await bench.load()).run(args);
}

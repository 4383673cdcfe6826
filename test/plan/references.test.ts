import { describe, expect, test } from "vitest";
import { type Fault, parse } from "../../src/plan/index.ts";
import { completePlan } from "./completePlan.ts";

// Outside data is anything; here it is mostly right.
// eslint-disable-next-line @typescript-eslint/no-explicit-any
type Spoilt = any;

function faultsOf(spoil: (plan: Spoilt) => void): readonly Fault[] {
  const plan = structuredClone(completePlan) as unknown as Spoilt;
  spoil(plan);
  const read = parse(plan);
  return read.ok ? [] : read.error;
}

/** Names of nothing: where, and what there is none of. */
const DANGLING: [path: string, what: string, spoil: (plan: Spoilt) => void][] = [
  ["site.legs.0.from", "place", (p) => (p.site.legs[0].from = "ghost")],
  ["site.legs.0.to", "place", (p) => (p.site.legs[0].to = "ghost")],
  ["site.keepOuts.0.afterTask", "task", (p) => (p.site.keepOuts[0].afterTask = "ghost")],
  ["site.keepOuts.0.exemptTasks.0", "task", (p) => (p.site.keepOuts[0].exemptTasks[0] = "ghost")],
  ["stay.blocks.0.crew.0", "crew member", (p) => (p.stay.blocks[0].crew[0] = "ghost")],
  ["crew.0.suit", "suit", (p) => (p.crew[0].suit = "ghost")],
  ["evas.0.suits.ev1", "suit", (p) => (p.evas[0].suits.ev1 = "ghost")],
  ["evas.0.suits.ghost", "crew member", (p) => (p.evas[0].suits.ghost = "suit-c")],
  ["evas.0.crew.1", "crew member", (p) => (p.evas[0].crew[1] = "ghost")],
  ["tasks.0.place", "place", (p) => (p.tasks[0].place = "ghost")],
  ["tasks.0.endPlace", "place", (p) => (p.tasks[0].endPlace = "ghost")],
  ["tasks.0.crew.named.0", "crew member", (p) => (p.tasks[0].crew.named[0] = "ghost")],
  ["tasks.0.equipment.0.equipment", "equipment", (p) => (p.tasks[0].equipment[0].equipment = "ghost")],
  ["tasks.1.sample.container", "container", (p) => (p.tasks[1].sample.container = "ghost")],
  ["tasks.0.pin.eva", "EVA", (p) => (p.tasks[0].pin.eva = "ghost")],
  ["tasks.0.pin.crew.1", "crew member", (p) => (p.tasks[0].pin.crew[1] = "ghost")],
  ["links.0.from.task", "task", (p) => (p.links[0].from.task = "ghost")],
  ["links.0.to.task", "task", (p) => (p.links[0].to.task = "ghost")],
  ["links.1.tasks.1", "task", (p) => (p.links[1].tasks[1] = "ghost")],
  ["schedule.placements.0.task", "task", (p) => (p.schedule.placements[0].task = "ghost")],
  ["schedule.placements.0.eva", "EVA", (p) => (p.schedule.placements[0].eva = "ghost")],
  ["schedule.placements.0.crew.0", "crew member", (p) => (p.schedule.placements[0].crew[0] = "ghost")],
  [
    "variants.0.schedule.placements.0.task",
    "task",
    (p) => (p.variants[0].schedule.placements[0].task = "ghost"),
  ],
];

/** Other bounds for the first EVA. */
function bound(plan: Spoilt, bounds: object): void {
  Object.assign(plan.evas[0], bounds);
}

/** Ids used twice: the list, and what is added to it. */
const LISTS: [path: string, list: (plan: Spoilt) => { id: string }[]][] = [
  ["site.places", (p) => p.site.places],
  ["site.keepOuts", (p) => p.site.keepOuts],
  ["stay.blocks", (p) => p.stay.blocks],
  ["stay.relayPasses", (p) => p.stay.relayPasses],
  ["crew", (p) => p.crew],
  ["suits", (p) => p.suits],
  ["evas", (p) => p.evas],
  ["equipment", (p) => p.equipment],
  ["containers", (p) => p.containers],
  ["tasks", (p) => p.tasks],
  ["links", (p) => p.links],
  ["variants", (p) => p.variants],
];

/** Fields that are right one by one and wrong together. */
const TOGETHER: [words: string, path: string, message: RegExp, spoil: (plan: Spoilt) => void][] = [
  [
    "no lander",
    "site.places",
    /exactly one place is the lander, found 0/,
    (p) => (p.site.places[0].kind = "station"),
  ],
  ["two landers", "site.places", /found 2/, (p) => (p.site.places[1].kind = "lander")],
  [
    "a block that ends as it starts",
    "stay.blocks.0",
    /must be after the start/,
    (p) => (p.stay.blocks[0].endS = 30_000),
  ],
  [
    "a pass that ends before it starts",
    "stay.relayPasses.0",
    /must be after/,
    (p) => (p.stay.relayPasses[0].endS = 1),
  ],
  [
    "a window without length",
    "tasks.0.windows.0",
    /must be after/,
    (p) => (p.tasks[0].windows[0].endS = 4000),
  ],
  ["a sun range upside down", "tasks.0.sun", /must be above/, (p) => (p.tasks[0].sun.greatestDeg = 5)],
  [
    "a short case longer than likely",
    "tasks.0.duration",
    /^low \(2401 s\) must not be longer than likely \(2400 s\)$/,
    (p) => (p.tasks[0].duration.lowS = 2401),
  ],
  [
    "a long case shorter than likely",
    "tasks.0.duration",
    /^high \(2399 s\) must not be shorter than likely \(2400 s\)$/,
    (p) => (p.tasks[0].duration.highS = 2399),
  ],
  ["crew at work nowhere", "tasks.1.place", /needs a place/, (p) => delete p.tasks[1].place],
  [
    "more named than asked for",
    "tasks.1.crew.named",
    /names 2 .* of 1/,
    (p) => (p.tasks[1].crew = { named: ["ev1", "ev2"] }),
  ],
  [
    "somebody named twice",
    "tasks.0.crew.named",
    /same one twice/,
    (p) => (p.tasks[0].crew.named = ["ev1", "ev1"]),
  ],
  ["somebody twice on an EVA", "evas.0.crew", /same one twice/, (p) => (p.evas[0].crew = ["ev1", "ev1"])],
  [
    "somebody twice on a placement",
    "schedule.placements.0.crew",
    /same one twice/,
    (p) => (p.schedule.placements[0].crew = ["ev1", "ev1"]),
  ],
  ["a link to itself", "links.0", /with itself/, (p) => (p.links[0].to.task = "deploy")],
  ["another link to itself", "links.3", /with itself/, (p) => (p.links[3].tasks = ["deploy", "deploy"])],
  [
    "a lag that cannot be",
    "links.0",
    /least lag \(7201 s\) is above the greatest \(7200 s\)/,
    (p) => (p.links[0].leastS = 7201),
  ],
  [
    "a link that says nothing",
    "links.0",
    /says nothing/,
    (p) => {
      delete p.links[0].leastS;
      delete p.links[0].greatestS;
      p.links[0].needs = "none";
    },
  ],
  ["a leg to itself", "site.legs.0", /from "lander" to itself/, (p) => (p.site.legs[0].to = "lander")],
  [
    "a leg given twice",
    "site.legs.1",
    /the way from "lander" to "(.+)" a second time: site\.legs\.0 gives it already/,
    (p) => {
      const { from, to } = p.site.legs[0];
      p.site.legs = [p.site.legs[0], { from, to, distanceM: 9999, durationS: 9999, bothWays: false }];
    },
  ],
  [
    "a way back given by a leg both ways and by one of its own",
    "site.legs.1",
    /a second time: site\.legs\.0 gives it already/,
    (p) => {
      const { from, to } = p.site.legs[0];
      p.site.legs = [
        { from, to, distanceM: 9998, durationS: 9998, bothWays: true },
        { from: to, to: from, distanceM: 9999, durationS: 9999, bothWays: false },
      ];
    },
  ],
  [
    "an EVA that must be in before it may go out",
    "evas.0",
    /latest ingress \(3600 s\) must be after the earliest egress \(3600 s\)/,
    (p) => bound(p, { earliestEgressS: 3600, latestIngressS: 3600 }),
  ],
  [
    "an EVA of no time",
    "evas.0.longestS",
    /0 s at the longest cannot be flown/,
    (p) => bound(p, { longestS: 0 }),
  ],
  [
    "airlock work that is longer than the EVA may be",
    "evas.0",
    /\(600 s and 301 s\) take more than the EVA may last \(900 s\)/,
    (p) => bound(p, { egressWorkS: 600, ingressWorkS: 301, longestS: 900 }),
  ],
  [
    "airlock work that is longer than the EVA's own window",
    "evas.0",
    /\(600 s and 301 s\) take more than there is from earliest egress to latest ingress \(900 s\)/,
    (p) => bound(p, { egressWorkS: 600, ingressWorkS: 301, earliestEgressS: 100, latestIngressS: 1000 }),
  ],
  ["a stay of no time", "stay.lengthS", /a stay of 0 s/, (p) => (p.stay.lengthS = 0)],
  [
    "a touchdown before anybody knows where the sun stands",
    "stay.touchdownUtc",
    /known from 1900 to 2100/,
    (p) => {
      p.body = { ephemeris: "moon" };
      p.stay.touchdownUtc = "1899-12-31T23:59:59Z";
    },
  ],
  [
    "a stay that goes on after that",
    "stay.touchdownUtc",
    /known from 1900 to 2100/,
    (p) => {
      p.body = { ephemeris: "moon" };
      p.stay.touchdownUtc = "2099-12-31T23:59:59Z";
    },
  ],
  [
    "a task placed twice",
    "schedule.placements.1.task",
    /"deploy" is placed twice/,
    (p) => p.schedule.placements.push(structuredClone(p.schedule.placements[0])),
  ],
];

describe("references", () => {
  test.each(DANGLING)("%s names no %s", (path, what, spoil) => {
    expect(faultsOf(spoil)).toEqual([{ path, message: `there is no ${what} "ghost"` }]);
  });

  test.each(LISTS)("an id used twice in %s", (path, list) => {
    const faults = faultsOf((plan) => {
      const entries = list(plan);
      entries.push({ ...structuredClone(entries[0]!) });
    });
    const size = list(structuredClone(completePlan)).length;
    expect(faults).toContainEqual({
      path: `${path}.${size}.id`,
      message: `"${list(structuredClone(completePlan))[0]!.id}" is used twice`,
    });
  });

  test.each(TOGETHER)("%s", (_, path, message, spoil) => {
    const faults = faultsOf(spoil);
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ path, message: expect.stringMatching(message) });
  });

  test("a suit for somebody who does not go out", () => {
    const out = (p: Spoilt) => {
      p.evas.push({ ...p.evas[0], id: "eva-2", crew: ["ev2"], suits: { ev1: "suit-c" } });
    };
    expect(faultsOf(out)).toEqual([
      { path: "evas.1.suits.ev1", message: '"ev1" does not go out on this EVA' },
    ]);
    expect(faultsOf((p) => (p.evas[0].suits = { "EV 1": "suit-c" }))).toEqual([
      {
        path: "evas.0.suits.EV 1",
        message: "is called by a name that is none: use lower-case letters, digits and single hyphens",
      },
    ]);
  });

  test("an EVA whose airlock work just fills it, and a stay of a second, are read", () => {
    const full = {
      egressWorkS: 600,
      ingressWorkS: 300,
      longestS: 900,
      earliestEgressS: 100,
      latestIngressS: 1000,
    };
    expect(faultsOf((p) => bound(p, full))).toEqual([]);
    expect(faultsOf((p) => (p.stay.lengthS = 1))).toEqual([]);
  });

  test("every bound of an EVA that cannot be is told", () => {
    const spoilt = { longestS: 0, earliestEgressS: 1000, latestIngressS: 900 };
    expect(faultsOf((p) => bound(p, spoilt)).map(({ path }) => path)).toEqual(["evas.0.longestS", "evas.0"]);
  });

  test("a placement may leave crew and EVA as senseless as it likes: that is a finding, not a fault", () => {
    expect(
      faultsOf((p) => {
        p.schedule.placements[0] = { task: "deploy", eva: null, crew: [], startS: -5000 };
      }),
    ).toEqual([]);
  });
});

describe("sun angles", () => {
  test("need a heading: one that is given, or that of a way", () => {
    const path = "tasks.1.sunAngle.facingDeg";
    const range = { leastDeg: 90, greatestDeg: 180 };
    expect(faultsOf((p) => (p.tasks[1].sunAngle = range)).map((fault) => fault.path)).toEqual([path]);
    expect(faultsOf((p) => (p.tasks[1].sunAngle = { ...range, facingDeg: 10 }))).toEqual([]);
    expect(
      faultsOf((p) => Object.assign(p.tasks[1], { sunAngle: range, endPlace: "array" })).map(
        (fault) => fault.path,
      ),
    ).toEqual([]);
    expect(
      faultsOf((p) => (p.tasks[0].sunAngle = { leastDeg: 90, greatestDeg: 90 })).map((fault) => fault.path),
    ).toContain("tasks.0.sunAngle");
  });
});

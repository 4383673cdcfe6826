import type { PlanInput } from "../../../src/plan/plan.ts";
import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan, type PlacementInput } from "../tinyPlan.ts";

type LinkInput = NonNullable<PlanInput["links"]>[number];

type LagInput = Extract<LinkInput, { type: "lag" }>;

const two = [task("first", "a"), task("second", "a")];

export const plan = (links: LinkInput[], placements: PlacementInput[], tasks = two) =>
  tinyPlan({ tasks, placements, more: { links }, evas: [eva("eva-1"), eva("eva-2")] });

export const lag = (more: Partial<LagInput>): LagInput => ({
  id: "link",
  type: "lag",
  from: { task: "first", end: "end" },
  to: { task: "second", end: "start" },
  needs: "none",
  ...more,
});

// first runs 2000 to 2600; second starts at 3000: 400 s later.
export const placements = [at("first", 2000), at("second", 3000, ["ev2"])];

// From first's start at 2000 to second's end at 3600: 1600 s.
const outer = { from: { task: "first", end: "start" }, to: { task: "second", end: "end" } } as const;

// second before first: 2000 - 3600 = -1600 s from second's end to first's start.
export const back = { from: { task: "second", end: "end" }, to: { task: "first", end: "start" } } as const;

export const alone = [at("second", 3000)];

export const same: LinkInput = { id: "link", type: "crew", tasks: ["first", "second"], crew: "same" };

export const different: LinkInput = { ...same, crew: "different" };

export const byOne = [at("first", 2000), at("second", 3000)];

export const byTwo = [at("first", 2000), at("second", 3000, ["ev2"])];

export const onOneEva: LinkInput = { id: "link", type: "eva", tasks: ["first", "second"] };

// a (300, 0) and c (0, 400) are 500 m apart; the second is carried from b to c, hypot(600, 400) = 721.1 m.
export const apartTasks = [
  task("first", "a"),
  task("second", "b", { endPlace: "c", duration: { likelyS: 722 } }),
];

export const apartPlaced = [at("first", 2000), at("second", 4000)];

export const apart = (leastM: number): LinkInput => ({
  id: "link",
  type: "apart",
  tasks: ["first", "second"],
  leastM,
});

export const linkLag: Pairs = [
  {
    breaks: ["400 s, at least 401 s asked for", plan([lag({ leastS: 401 })], placements)],
    says: { need: 401, have: 400 },
    holds: ["400 s, at least 400 s asked for", plan([lag({ leastS: 400 })], placements)],
  },
  {
    breaks: ["400 s, at most 399 s asked for", plan([lag({ greatestS: 399 })], placements)],
    says: { need: 399, have: 400 },
    holds: ["400 s, at most 400 s asked for", plan([lag({ greatestS: 400 })], placements)],
  },
  {
    breaks: ["start to end 1600 s, at least 1601 s", plan([lag({ ...outer, leastS: 1601 })], placements)],
    says: { need: 1601, have: 1600 },
    holds: [
      "start to end 1600 s exactly",
      plan([lag({ ...outer, leastS: 1600, greatestS: 1600 })], placements),
    ],
  },
  {
    breaks: ["a negative lag missed by a second", plan([lag({ ...back, leastS: -1599 })], placements)],
    says: { need: -1599, have: -1600 },
    holds: ["a negative lag met to the second", plan([lag({ ...back, leastS: -1600 })], placements)],
  },
];

export const linkNeeds: Pairs = [
  {
    breaks: ["the second is placed without the first", plan([lag({ needs: "from" })], alone)],
    holds: ["the first alone needs nothing", plan([lag({ needs: "from" })], [at("first", 2000)])],
  },
  {
    breaks: ["both asked for, only the first placed", plan([lag({ needs: "both" })], [at("first", 2000)])],
    holds: ["neither placed", plan([lag({ needs: "both" })], [])],
  },
];

export const linkCrew: Pairs = [
  {
    breaks: ["same asked for, two different do them", plan([same], byTwo)],
    holds: ["the same does both", plan([same], byOne)],
  },
  {
    breaks: ["different asked for, one does both", plan([different], byOne)],
    holds: ["two different do them", plan([different], byTwo)],
  },
];

export const linkEva: Pairs = [
  {
    breaks: ["on two EVAs", plan([onOneEva], [at("first", 2000), at("second", 20_000, ["ev1"], "eva-2")])],
    holds: ["on one EVA", plan([onOneEva], [at("first", 2000), at("second", 20_000)])],
  },
];

export const linkApart: Pairs = [
  {
    breaks: ["500 m apart, 500.1 m asked for", plan([apart(500.1)], apartPlaced, apartTasks)],
    says: { need: 500.1, have: 500 },
    holds: ["500 m apart, 500 m asked for", plan([apart(500)], apartPlaced, apartTasks)],
  },
];

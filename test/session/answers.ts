import type {
  ChancesReport,
  OddsReport,
  Relaxation,
  LateReport,
  WhyReport,
} from "../../src/answers/index.ts";
import { judgeFor } from "../../src/check/index.ts";
import { duration } from "../../src/kernel/index.ts";
import { applyEdit, editBetween, type Plan } from "../../src/plan/index.ts";
import { scheduleWith } from "./bench.ts";

/** Answers of the engine as the desk gets them, on the small plan. */

/** EVA 1 may last `byS` longer, and with that the second task goes on. */
export function longerEva(plan: Plan, byS = 300): Relaxation {
  const evas = plan.evas.map((eva) => ({ ...eva, longestS: duration(eva.longestS + byS) }));
  const sentence = `EVA 1 may last ${byS / 60} min longer: so long instead of so long.`;
  const edit = editBetween(sentence, plan, { ...plan, evas });
  const schedule = scheduleWith(plan, "two", 9000);
  return {
    kind: "longest",
    subject: "eva-1",
    steps: byS / 60,
    sentence,
    owner: null,
    edit,
    schedule,
    score: judgeFor(applyEdit(plan, edit))(schedule).score,
    dropped: [],
    moves: [],
    cost: { mustLost: 0, worthLost: 0, size: byS / 25_000 },
  };
}

/** The first task leaves the day for the second. */
export function withoutOne(plan: Plan): Relaxation {
  const schedule = {
    placements: scheduleWith(plan, "two", 9000).placements.filter((one) => one.task !== "one"),
  };
  return {
    ...longerEva(plan),
    kind: "drop",
    subject: "one",
    steps: 1,
    sentence: "Task one goes to the bench: worth 10 lost.",
    owner: "the flight director",
    edit: editBetween("Task one goes to the bench: worth 10 lost.", plan, plan),
    schedule,
    score: judgeFor(plan)(schedule).score,
    dropped: ["one"],
    cost: { mustLost: 0, worthLost: 10, size: 1 },
  };
}

export function whyReport(plan: Plan, part: Partial<WhyReport> = {}): WhyReport {
  return {
    task: "two",
    state: "conflict",
    sentence: "1 condition and 1 placed task leave Task two no place in the order as it is.",
    conflict: {
      causes: [
        {
          key: "longest 0",
          kind: "longest",
          subject: "eva-1",
          sentence: "EVA 1 lasts at most 6:56.",
          owner: null,
        },
        {
          key: "placement 0",
          kind: "placement",
          subject: "one",
          sentence: "Task one stays on EVA 1 with EV1 (15 min).",
          owner: null,
        },
      ],
      certainty: "proved",
      scope: "in this order",
      minimal: true,
      sentence: "1 condition and 1 placed task leave Task two no place in the order as it is.",
    },
    relaxations: [longerEva(plan), withoutOne(plan)],
    guarded: [],
    tried: 2,
    offers: 2,
    stopped: "done",
    ...part,
  };
}

const CHANCE = { count: 90, of: 100, share: 0.9, low: 0.82, high: 0.94, words: "90.0 % (82.5 to 94.5 %)" };

/** Chances of the small day as the desk gets them: one placed task, with a slack of ten minutes and a bit. */
export function chancesReport(part: Partial<ChancesReport> = {}): ChancesReport {
  const { days, seed, shape, crew, home, must, whole, wish, mustOnBench, withoutSpread, unplayed, leftOut } =
    oddsReport();
  const tasks = [{ task: "one", must: false, done: CHANCE, reason: "its window was over", slackS: 629 }];
  return {
    ...{ days, seed, shape, crew, home, must, whole, wish, mustOnBench, withoutSpread, unplayed, leftOut },
    meanWorth: 9,
    tasks,
    ...part,
  };
}

export function oddsReport(part: Partial<OddsReport> = {}): OddsReport {
  return {
    days: 100,
    seed: 7,
    shape: "pert",
    complete: true,
    pending: [],
    crew: { goesAhead: true, breaksOff: true, leavesOut: true, restsByRule: true, caution: 0.25 },
    home: CHANCE,
    must: CHANCE,
    whole: { ...CHANCE, words: "80.0 % (71.1 to 86.7 %)" },
    otherwise: { without: [], byCaution: [], independent: null, unhindered: null },
    wish: { home: 0.99, must: 0.9 },
    spoils: [],
    offers: [],
    evas: [],
    tasks: [{ task: "one", must: false, done: CHANCE, window: null }],
    mustOnBench: [],
    margins: [],
    worth: {
      planned: 10,
      mean: 9,
      standardError: 0.3,
      bands: [0, 10, 10, 10, 10],
      least: 0,
      greatest: 10,
    },
    sensitivities: [],
    sensitivityMeasure: "Measured so.",
    withoutSpread: ["one"],
    unplayed: [],
    leftOut: "Not simulated: faults.",
    ...part,
  };
}

export function lateReport(part: Partial<LateReport> = {}): LateReport {
  return { minutes: [5, 10], days: 300, sound: true, complete: true, evas: [], ...part };
}

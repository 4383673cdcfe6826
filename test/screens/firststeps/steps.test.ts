import { describe, expect, it } from "vitest";
import type { ChancesReport } from "../../../src/answers/index.ts";
import { judgeFor } from "../../../src/check/index.ts";
import { duration, instant } from "../../../src/kernel/index.ts";
import { given, type Plan, parse } from "../../../src/plan/index.ts";
import { blankPlan } from "../../../src/session/index.ts";
import {
  stepKey,
  leadingStep,
  type LeftOut,
  nextStep,
  firstSteps,
  type StepId,
} from "../../../src/screens/firststeps/steps.ts";
import { CREW_SETS, hinderedSet, withCrewSet } from "../../../src/screens/setup/crewsets.ts";
import { taskTable } from "../../../src/screens/fields/tasks.ts";
import { chanceOf } from "../../../src/solver/simulate/chance.ts";
import { chancesReport } from "../../session/answers.ts";
import { planOf, scheduleWith, smallInput } from "../../session/bench.ts";

const blank = blankPlan(Date.UTC(2031, 0, 1));
const stepsOf = (plan: Plan) => firstSteps(plan, judgeFor(plan)(plan.schedule));
const step = (plan: Plan, id: StepId) => stepsOf(plan).find((one) => one.id === id)!;
const states = (plan: Plan) => stepsOf(plan).map((one) => one.state);

/** The empty plan with a station and a task of the first sort at it. */
function begun(): Plan {
  const places = [
    ...blank.site.places,
    { ...blank.site.places[0]!, id: "rim", name: "Rim", kind: "station" as const, eastM: 200 },
  ];
  const sited = { ...blank, site: { ...blank.site, places } };
  const sort = taskTable.rows!.sorts[0]!.add(sited);
  if (typeof sort === "string") throw new Error(sort);
  return { ...sited, ...sort.change(sited) };
}

describe("the steps to a packed day", () => {
  it("begin at the first thing that an empty plan lacks, and call its defaults what they are", () => {
    expect(step(blank, "crew").sentence).toBe("2 crew members in 2 suits; 14 values are still to be given.");
    expect(states(blank)).toEqual(["open", "begun", "begun", "open", "open", "open", "open", "open"]);
    expect(nextStep(stepsOf(blank)).sentence).toBe("There is no place to work at yet: add a station or two.");
  });

  it("go on by what the plan has, not by what was pressed", () => {
    const plan = begun();
    expect(states(plan)).toEqual(["begun", "begun", "begun", "done", "open", "open", "open", "open"]);
    expect(nextStep(stepsOf(plan)).id).toBe("pack");
    expect(nextStep(stepsOf({ ...plan, tasks: [] })).id).toBe("requests");
    const left = { task: plan.tasks[0]!.id, name: "Core", reason: "It is too far." };
    const stuck = firstSteps(plan, judgeFor(plan)(plan.schedule), left);
    expect(nextStep(stuck).sentence).toBe("Packing placed nothing. Core: It is too far.");
    expect(nextStep(stuck).about).toBe(left.task);
    expect(nextStep(stepsOf(plan)).about).toBeUndefined();
    const packed = {
      ...plan,
      schedule: {
        placements: [{ task: plan.tasks[0]!.id, eva: "eva-1", crew: ["ev1"], startS: instant(12_000) }],
      },
    };
    // No rule is broken, but nobody has seen the chances yet: paper waits for the wish.
    expect(states(packed)).toEqual(["begun", "begun", "begun", "done", "done", "done", "open", "open"]);
    expect(nextStep(stepsOf(packed)).sentence).toBe("The chances of the day are not known yet.");
    const broken = {
      ...packed,
      schedule: { placements: [{ ...packed.schedule.placements[0]!, startS: instant(0) }] },
    };
    expect(step(broken, "findings")).toMatchObject({
      state: "open",
      sentence: expect.stringMatching(/^\d breach/),
    });
    expect(step(broken, "paper").state).toBe("open");
  });

  it("lead once to each that has the empty plan's own numbers, and to none of them after the first request", () => {
    const gone = new Set<string>();
    const led = (plan: Plan): string => {
      const next = leadingStep(stepsOf(plan), plan.tasks.length === 0, gone);
      gone.add(stepKey(next));
      return `${next.id} ${next.page}`;
    };
    const plan = { ...begun(), tasks: [] };
    expect(led(blank)).toBe("where site");
    expect(led(plan)).toBe("where site");
    const sited = { ...plan, site: given(plan.site, ["latDeg", "lonDeg"]) };
    expect([led(sited), led(sited), led(sited), led(sited), led(sited)]).toEqual([
      "where stay",
      "crew crew",
      "evas evas",
      "requests tasks",
      "requests tasks",
    ]);
    gone.clear();
    expect(led(begun())).toBe("pack null");
  });

  it("name the must-do task that a pack left out", () => {
    const plan = begun();
    const must = { ...plan.tasks[0]!, id: "must", name: "Core", must: true };
    const both = { ...plan, tasks: [plan.tasks[0]!, must] };
    const schedule = {
      placements: [{ task: plan.tasks[0]!.id, eva: "eva-1", crew: ["ev1"], startS: instant(12_000) }],
    };
    const verdict = judgeFor(both)(schedule);
    const pack = (left: LeftOut | null) => firstSteps({ ...both, schedule }, verdict, left)[4]!;
    expect(pack(null)).toMatchObject({ state: "open", sentence: "1 must-do task left out: press Pack." });
    expect(pack({ task: "must", name: "Core", reason: "It is too far." })).toMatchObject({
      state: "open",
      about: "must",
      sentence: "Left out: Core. It is too far.",
    });
  });

  it("are done once nothing is left as the empty plan had it", () => {
    const own = planOf(smallInput);
    expect(states({ ...own, schedule: scheduleWith(own, "one", 7200) })).toEqual([
      "done",
      "begun",
      "done",
      "done",
      "done",
      "done",
      "open",
      "open",
    ]);
    // The chances are not known yet: wish and paper wait for them.
    const suits = own.crew.map(({ id }) => ({ ...own.suits[0]!, id, oxygenKg: 0.8 }));
    const crew = own.crew.map((member) => ({ ...member, suit: member.id }));
    expect(step({ ...own, suits, crew }, "crew").state).toBe("done");
  });

  it("say when an EVA may begin in the night, where the sun is known", () => {
    const plan = { ...begun(), ...withCrewSet(CREW_SETS[1]!) };
    const evas = (sunDeg?: (atS: number) => number | null) =>
      firstSteps(plan, judgeFor(plan)(plan.schedule), null, sunDeg)[2]!;
    expect(evas((atS) => (atS > 10 * 3600 ? -0.1 : 0))).toMatchObject({
      state: "done",
      sentence: "2 EVAs of at most 7:00; the sun is down at the earliest egress of EVA 2.",
    });
    expect(evas().sentence).toBe("2 EVAs of at most 7:00.");
  });

  it("say what is missing", () => {
    const plan = begun();
    const task = plan.tasks[0]!;
    const said = (part: Partial<Plan>, id: StepId) => step({ ...plan, ...part }, id);
    expect(said({ crew: [], evas: [] }, "crew").sentence).toMatch(/Nobody is there/);
    expect(said({ suits: plan.suits.map((suit) => ({ ...suit, waterKg: 0 })) }, "crew").sentence).toMatch(
      /^Suit 1 lacks/,
    );
    const shared = plan.crew.map((member) => ({ ...member, suit: plan.suits[0]!.id }));
    expect(said({ crew: shared }, "crew")).toMatchObject({
      state: "begun",
      sentence: "EV1 and EV2 wear the same suit on EVA 1: give each their own.",
    });
    expect(said({ crew: shared, evas: [] }, "crew").sentence).toMatch(/values are still to be given/);
    expect(said({ site: blank.site }, "where")).toMatchObject({
      state: "begun",
      sentence: "All work is at the lander: there is no other place yet.",
    });
    expect(said({ evas: [] }, "evas").sentence).toMatch(/nobody goes out/);
    expect(said({ evas: [{ ...plan.evas[0]!, longestS: duration(2400) }] }, "evas").sentence).toMatch(
      /no time for work/,
    );
    expect(said({ evas: [{ ...plan.evas[0]!, crew: ["ev1"] }] }, "evas").sentence).toBe(
      "EV2 goes out on no EVA.",
    );
    expect(said({ tasks: [{ ...task, crew: { count: 3, named: [] } }] }, "requests").sentence).toMatch(
      /3 crew members, and no EVA/,
    );
    expect(said({ tasks: [{ ...task, worth: 0 }] }, "requests").sentence).toMatch(/worth nothing/);
    expect(said({ tasks: [{ ...task, worth: 0, must: true }] }, "requests").state).toBe("done");
    // An equator given on purpose is as good as any other place.
    const site = given(plan.site, ["latDeg", "lonDeg"]);
    const stay = given(plan.stay, ["touchdownUtc", "lengthS"]);
    expect(step({ ...plan, title: "Ours", site, stay }, "where").state).toBe("done");
    expect(step({ ...plan, site: given(plan.site, ["latDeg"]) }, "where")).toMatchObject({
      state: "begun",
      sentence: "Nobody has given the longitude: where sun and Earth stand is unknown until then.",
    });
    for (const left of [
      { title: "Ours", site },
      { site, stay },
    ])
      expect(step({ ...plan, ...left }, "where")).toMatchObject({ state: "begun", page: "stay" });
  });
});

describe("a whole crew to begin with", () => {
  it.each(CREW_SETS)("leaves a sound plan in which everybody goes out: $name", (set) => {
    const plan = { ...begun(), ...withCrewSet(set) };
    const read = parse(JSON.parse(JSON.stringify(plan)));
    expect(read.ok ? [] : read.error).toEqual([]);
    expect(step(plan, "evas").state).not.toBe("open");
    expect(step(plan, "evas").sentence).not.toMatch(/goes out on no EVA/);
    expect(hinderedSet(plan, set)).toBeNull();
    // Recharge is kept even when every EVA is as late and the next as early as may be.
    for (const one of plan.evas)
      for (const other of plan.evas)
        if (one !== other && one.crew.some((member) => other.crew.includes(member)))
          expect(
            Math.max(other.earliestEgressS - one.latestIngressS, one.earliestEgressS - other.latestIngressS),
          ).toBeGreaterThanOrEqual(plan.rules.recharge.leastS);
  });

  it("does not take the place of a crew that is on the day line, nor fit a stay that is too short", () => {
    const own = planOf(smallInput);
    expect(hinderedSet(own, CREW_SETS[0]!)).toMatch(/send them to the bench first/);
    const short = {
      ...own,
      schedule: { placements: [] },
      stay: { ...own.stay, lengthS: duration(9 * 3600) },
    };
    expect(hinderedSet(short, CREW_SETS[0]!)).toBe("It needs a stay of 10 h.");
  });
});

describe("a task of a sort", () => {
  it("is told apart from others of its sort, and upkeep is at the lander", () => {
    let plan = begun();
    for (const sort of [0, 4, 0]) {
      const made = taskTable.rows!.sorts[sort]!.add(plan);
      if (typeof made === "string") throw new Error(made);
      plan = { ...plan, ...made.change(plan) };
    }
    expect(plan.tasks.map(({ name, place }) => [name, place])).toEqual([
      ["Documented sample", "rim"],
      ["Documented sample 2", "rim"],
      ["Upkeep at the lander", "lander"],
      ["Documented sample 3", "rim"],
    ]);
  });

  it("call nobody to print what rests on values that nobody has given", () => {
    const plan = planOf({ ...smallInput });
    const paper = (of: Plan) =>
      firstSteps(
        of,
        judgeFor(of)(of.schedule),
        null,
        () => null,
        chancesReport({
          days: 2000,
          home: chanceOf(2000, 2000),
          must: chanceOf(1950, 2000),
          withoutSpread: [],
        }),
      ).at(-1)!;
    expect(paper(plan)).toMatchObject({ id: "paper", state: "done" });
    const open = { ...plan, suits: plan.suits.map((one) => ({ ...one, toGive: ["oxygenKg" as const] })) };
    expect(paper(open).state).toBe("begun");
    expect(paper(open).sentence).toContain(
      `it rests on ${plan.suits.length === 1 ? "1 value" : `${plan.suits.length} values`} that nobody has given`,
    );
  });

  it("ask for the wish before they call for print", () => {
    const plan = planOf({ ...smallInput });
    const judged = (part: Partial<ChancesReport>) => {
      const steps = firstSteps(
        plan,
        judgeFor(plan)(plan.schedule),
        null,
        () => null,
        chancesReport({ days: 2000, home: chanceOf(2000, 2000), withoutSpread: [], ...part }),
      );
      return steps.filter(({ id }) => id === "wish" || id === "paper");
    };
    const below = judged({ must: chanceOf(1601, 2000) });
    expect(below.map(({ state }) => state)).toEqual(["open", "open"]);
    expect(below[0]!.sentence).toBe(
      "Everybody home on >99 %, every must-do done on 80 % of simulated days; wished: 99 % and 90 %. Look at the odds and the curve.",
    );
    expect(below[1]!.sentence).toBe("Paper is worth printing once the chances meet the wish.");
    expect(judged({ must: chanceOf(1810, 2000) }).map(({ state }) => state)).toEqual(["begun", "done"]);
    expect(judged({ must: chanceOf(1950, 2000) }).map(({ state }) => state)).toEqual(["done", "done"]);
    // Chances that no overrun is in meet no wish.
    const [unspread] = judged({ must: chanceOf(1950, 2000), withoutSpread: ["one"] });
    expect(unspread).toMatchObject({
      state: "begun",
      sentence: expect.stringContaining("1 of 1 placed task has no low and high duration"),
    });
  });
});

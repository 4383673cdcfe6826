import { describe, expect, it } from "vitest";
import type { Finding, Verdict } from "../../../../src/answers/index.ts";
import { type SheetKindId, SHEET_KINDS, sheetPaper } from "../../../../src/exchange/index.ts";
import { keysOf } from "../../../../src/kernel/index.ts";
import { type Plan, TO_GIVE } from "../../../../src/plan/index.ts";
import { readyPlan } from "../../../readyplan.ts";
import { randomPlan } from "../../../properties/randomPlan.ts";
import { samplePlan } from "../../samplePlan.ts";
import { collisions, overflows, wordsOf } from "../reading.ts";
import { factsOf, packed, STAMP } from "./facts.ts";

const KINDS: readonly SheetKindId[] = keysOf(SHEET_KINDS);

/** All that a sheet says, page after page. */
function saidOn(kind: SheetKindId, facts: Parameters<typeof sheetPaper>[1]): string {
  return sheetPaper(kind, facts, STAMP, { paper: "a4" }).pages.map(wordsOf).join(" ");
}

describe("sheets on paper", () => {
  it.each(["a4", "letter", "cuff"] as const)(
    "clip nothing and set nothing over another, on %s",
    async (paper) => {
      const plans = [
        samplePlan(),
        samplePlan({
          title:
            "A plan whose title goes on for as long as a title of a plan may go on, and then a little farther",
        }),
        packed(readyPlan("small")),
        // Cases of which nobody has said anything have long titles.
        {
          ...samplePlan(),
          containers: samplePlan().containers.map((one) => ({ ...one, toGive: [...TO_GIVE.containers] })),
        },
        ...Array.from({ length: 12 }, (_, i) =>
          packed(
            randomPlan(100 + i, {
              tasks: 10 + i,
              crew: 1 + (i % 4),
              evas: 1 + (i % 3),
              places: 7,
              features: 0.6,
            }),
            40,
          ),
        ),
      ];
      for (const plan of plans) {
        const facts = await factsOf(plan);
        for (const kind of KINDS) {
          const { pages } = sheetPaper(kind, facts, STAMP, { paper });
          expect(pages.length, kind).toBeGreaterThan(0);
          expect(overflows(pages), kind).toEqual([]);
          expect(collisions(pages), kind).toEqual([]);
        }
      }
    },
  );

  it("are the same for the same plan", async () => {
    const facts = await factsOf(samplePlan());
    for (const kind of KINDS)
      expect(sheetPaper(kind, facts, STAMP, { paper: "a4" })).toEqual(
        sheetPaper(kind, facts, STAMP, { paper: "a4" }),
      );
  });

  it("say what is not known instead of a number", async () => {
    const { plan, verdict, day } = await factsOf(samplePlan());
    const said = (kind: SheetKindId): string => saidOn(kind, { plan, verdict, day, sunDeg: () => null });
    expect(said("late")).toContain("NOT WORKED OUT");
    expect(said("left-out")).toContain("not worked out");
    expect(said("stations")).toContain("?");
    expect(said("console")).toContain("?");
    for (const kind of ["scenario", "debrief"] as const)
      expect(said(kind)).toContain("No day is under rehearsal.");
  });

  it("tell in a debrief which rules the day broke, before what was done in it", async () => {
    const facts = await factsOf(samplePlan());
    const rehearsal = facts.rehearsal!;
    const sentence = "EV1 on EVA 1 comes in with 0.138 kg of cooling water; the reserve is 0.450 kg.";
    const finding: Finding = {
      rule: "water-reserve",
      level: "breach",
      subjects: [],
      span: null,
      need: 0.45,
      have: 0.138,
      unit: "kg",
      sentence,
    };
    const broken = { ...rehearsal.verdict, findings: [finding] };
    const said = (planned: Verdict): string =>
      saidOn("debrief", { ...facts, rehearsal: { ...rehearsal, planned, verdict: broken } });
    const words = said({ ...broken, findings: [] });
    expect(words).toContain(sentence);
    expect(words.indexOf(sentence)).toBeLessThan(words.indexOf("Outings"));
    expect(said(broken)).toContain("It broke no rule that the plan had kept.");
  });

  it("never say a case's or a suit's number that nobody has given, nor a sum with one in it", async () => {
    const facts = await factsOf(samplePlan());
    const words = (plan: Plan, kind: SheetKindId): string => saidOn(kind, { ...facts, plan });
    const { plan } = facts;
    expect(plan.tasks.some(({ sample }) => sample)).toBe(true);
    expect(words(plan, "manifest")).not.toMatch(/not given|kg not known|at least/);
    const open: Plan = {
      ...plan,
      containers: plan.containers.map((one) => ({ ...one, toGive: [...TO_GIVE.containers] })),
      suits: plan.suits.map((one) => ({ ...one, oxygenKg: 0.77, toGive: ["oxygenKg" as const] })),
    };
    const manifest = words(open, "manifest");
    expect(manifest).toContain("empty not given, holds not given and litres not given");
    expect(manifest).toContain("Samples; room for more: kg not known, litres not known");
    expect(manifest).toMatch(/at least [\d.]+ kg/);
    expect(
      words({ ...plan, suits: plan.suits.map((one) => ({ ...one, oxygenKg: 0.77 })) }, "rules"),
    ).toContain("0.770 kg");
    expect(words(open, "rules")).not.toContain("0.770 kg");
  });

  it("never say where a site or a place lies or how long a task takes where nobody has given it", async () => {
    const facts = await factsOf(samplePlan());
    const words = (plan: Plan, kind: SheetKindId): string => saidOn(kind, { ...facts, plan });
    const { plan } = facts;
    expect(words(plan, "site")).not.toMatch(/not given|\? \? \? \?/);
    const far = plan.site.places.find(({ kind }) => kind !== "lander")!;
    const open: Plan = {
      ...plan,
      site: {
        ...plan.site,
        toGive: [...TO_GIVE.site],
        places: plan.site.places.map((one) =>
          one.id === far.id ? { ...one, toGive: [...TO_GIVE.places] } : one,
        ),
      },
      schedule: { ...plan.schedule, placements: [] },
      tasks: plan.tasks.map((one) => ({ ...one, toGive: [...TO_GIVE.tasks] })),
    };
    expect(words(open, "site")).toContain("latitude not given, longitude not given.");
    expect(words(open, "site")).toContain(`${far.name} ${far.kind} ? ? ? ?`);
    const rows = words(open, "left-out");
    expect(rows.match(/ not given /g)).toHaveLength(plan.tasks.length);
    expect(rows).not.toMatch(/\d min/);
  });

  it("say where the site lies with every figure that was given: a tenth of a degree is kilometres", async () => {
    const facts = await factsOf(samplePlan());
    const site = { ...facts.plan.site, latDeg: -41.83, lonDeg: 52.375 };
    expect(saidOn("site", { ...facts, plan: { ...facts.plan, site } })).toContain(
      "latitude \u221241.83°, longitude 52.375°",
    );
  });

  it("explain the dash of a time of day where there is one, and only there", async () => {
    const facts = await factsOf(samplePlan());
    const { plan } = facts;
    const open: Plan = { ...plan, stay: { ...plan.stay, toGive: ["touchdownUtc"] } };
    for (const kind of ["console", "gauges"] as const)
      for (const [one, isExplained] of [
        [plan, false],
        [open, true],
      ] as const) {
        const { pages } = sheetPaper(kind, { ...facts, plan: one }, STAMP, { paper: "a4" });
        expect(pages.every((page) => wordsOf(page).includes("nobody has given the touchdown"))).toBe(
          isExplained,
        );
      }
  });

  it("say of sampling whose mass nobody has told that it is in no sum, and not that nothing comes back", async () => {
    const facts = await factsOf(samplePlan());
    const sampled = facts.plan.tasks.find(({ id, kind, sample }) => {
      return kind === "sampling" && sample && facts.plan.schedule.placements.some(({ task }) => task === id);
    })!;
    const without = (ids: readonly string[]) =>
      saidOn("manifest", {
        ...facts,
        plan: {
          ...facts.plan,
          tasks: facts.plan.tasks.map((task) => {
            const { sample, ...rest } = task;
            return ids.includes(task.id) || sample === undefined ? rest : task;
          }),
        },
      });
    const words = without([sampled.id]);
    expect(words).toContain("The plan does not say what these sampling tasks bring back:");
    expect(words).toContain("at least");
    // A sample without a number is said as unknown in its row, its case's sum and what the case still takes.
    const unmeasured = saidOn("manifest", {
      ...facts,
      plan: {
        ...facts.plan,
        tasks: facts.plan.tasks.map((task) =>
          task.id === sampled.id && task.sample ? { ...task, sample: { ...task.sample, volumeL: 0 } } : task,
        ),
      },
    });
    expect(unmeasured).toContain("litres not known");
    expect(unmeasured).toMatch(/at least [\d.]+ L/);
    const none = without(facts.plan.tasks.map(({ id }) => id));
    expect(none).toContain("The plan does not say what these sampling tasks bring back:");
    expect(none).not.toContain("No sample is brought back.");
  });

  it("have their whole state in the foot too", async () => {
    const facts = await factsOf(samplePlan());
    const revision = "no revision · 476b 7b13 · 17 of 20 tasks placed · 16 values not given";
    for (const kind of KINDS)
      for (const page of sheetPaper(kind, facts, { ...STAMP, revision }, { paper: "a4" }).pages)
        expect([kind, wordsOf(page).split(revision).length - 1]).toEqual([kind, 2]);
  });

  it("have a frame for bags in no sum of a manifest, and one for the mass in every row", async () => {
    const facts = await factsOf(samplePlan());
    const pages = sheetPaper("manifest", facts, STAMP, { paper: "cuff" }).pages;
    const said = pages.map(wordsOf).join(" ");
    const samples = facts.plan.tasks.filter(
      ({ id, sample }) => sample && facts.plan.schedule.placements.some(({ task }) => task === id),
    );
    expect(samples.length).toBeGreaterThan(0);
    expect(said.match(/BAGS, ACTUAL/g)).toHaveLength(samples.length);
    const cases = new Set(samples.map(({ sample }) => sample?.container)).size;
    expect(said.match(/KG ACTUAL/g)).toHaveLength(samples.length + 2 * cases + 1);
  });
});

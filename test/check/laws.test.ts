import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Finding, Verdict } from "../../src/answers/index.ts";
import { check, judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import type { Placement, Schedule } from "../../src/plan/index.ts";
import { FLIGHT_RULES } from "../../src/rules/index.ts";
import { partsArb } from "./randomPlan.ts";
import { type TaskInput, tinyPlan, type TinyParts } from "./tinyPlan.ts";

/** Laws that hold for every plan and every schedule, however senseless. */

const judged = (parts: TinyParts): Verdict => check(tinyPlan(parts));

/** A finding without its times and words. */
const bare = ({ rule, level, subjects }: Finding): string =>
  JSON.stringify([rule, level, subjects.map(({ kind, id }) => `${kind} ${id}`)]);

/** One placement moved, or taken off; the others are the same objects, as in a hand. */
function moved({ placements }: Schedule, nth: number, byS: number, gone: boolean): Schedule {
  const held: Placement | undefined = placements[nth % Math.max(1, placements.length)];
  return {
    placements: placements.flatMap((one) => {
      if (one !== held) return [one];
      return gone ? [] : [{ ...one, startS: instant(one.startS + byS) }];
    }),
  };
}

const breaches = (verdict: Verdict): string[] =>
  verdict.findings
    .filter(({ level }) => level === "breach")
    .map(({ rule, subjects }) =>
      JSON.stringify([rule, subjects.filter(({ kind }) => kind !== "task").map(({ id }) => id)]),
    );

describe("laws of the judge", () => {
  test("any schedule gets a verdict: finite numbers, words and known units for every finding, no finding twice", () => {
    fc.assert(
      fc.property(partsArb, (parts) => {
        const verdict = judged(parts);
        for (const value of Object.values(verdict.score)) expect(Number.isSafeInteger(value)).toBe(true);
        for (const finding of verdict.findings) expect(finding.sentence).toMatch(/^\S.*\.$/);
        for (const finding of verdict.findings)
          expect(finding.sentence).not.toMatch(/NaN|undefined|Infinity/);
        for (const { rule, need, have, unit, parts = [] } of verdict.findings) {
          const units = [...(need === null || have === null ? [] : [unit]), ...parts.map((one) => one.unit)];
          for (const one of units) expect(Object.keys(FLIGHT_RULES[rule].amounts)).toContain(one);
        }
        const keys = verdict.findings.map(bare);
        expect(new Set(keys).size).toBe(keys.length);
        const tracks = [...verdict.margins, ...verdict.reach, ...verdict.separation];
        for (const { points } of tracks) {
          for (let k = 0; k < points.length; k += 1) {
            expect(Number.isFinite(points[k]!.value)).toBe(true);
            if (k > 0) expect(points[k]!.atS).toBeGreaterThanOrEqual(points[k - 1]!.atS);
          }
        }
      }),
      { numRuns: 200 },
    );
  });

  test("the order of tasks, placements and links in the document changes nothing", () => {
    fc.assert(
      fc.property(partsArb, (parts) => {
        const turned: TinyParts = {
          ...parts,
          tasks: [...parts.tasks!].reverse(),
          placements: [...parts.placements!].reverse(),
          more: { ...parts.more, links: [...parts.more!.links!].reverse() },
        };
        const { walkbackS, ...rest } = judged(parts);
        const { walkbackS: turnedWalkbackS, ...turnedRest } = judged(turned);
        expect(turnedRest).toEqual(rest);
        expect(turnedWalkbackS).toEqual(walkbackS);
      }),
      { numRuns: 100 },
    );
  });

  test("a judge that has judged other days says what one says that has seen none", () => {
    const dayArb = fc.tuple(
      partsArb,
      fc.array(fc.tuple(fc.nat(), fc.integer({ min: -3000, max: 3000 }), fc.boolean()), { maxLength: 12 }),
    );
    fc.assert(
      fc.property(dayArb, ([parts, moves]) => {
        const plan = tinyPlan(parts);
        const judge = judgeFor(plan);
        let day: Schedule = plan.schedule;
        judge(day);
        for (const [nth, byS, gone] of moves) {
          day = moved(day, nth, byS, gone);
          // A copy of the plan is unknown to whatever is remembered.
          expect(judge(day)).toEqual(check(structuredClone(plan), structuredClone(day)));
          expect(judge(plan.schedule)).toEqual(check(structuredClone(plan)));
        }
      }),
      { numRuns: 60 },
    );
  });

  test("everything later by the same time: the same findings", () => {
    fc.assert(
      fc.property(partsArb, fc.integer({ min: 0, max: 50_000 }), (parts, byS) => {
        // Remote work before touchdown becomes sound when it is shifted past it, so no placement starts before 0.
        const sound = { ...parts, placements: parts.placements!.filter(({ startS }) => startS >= 0) };
        const before = judged(sound);
        const later = judged(shifted(sound, byS));
        expect(later.findings.map(bare)).toEqual(before.findings.map(bare));
        expect(
          later.findings.map(({ need, have, unit, rule }) => (absolute(rule) ? null : [need, have, unit])),
        ).toEqual(
          before.findings.map(({ need, have, unit, rule }) => (absolute(rule) ? null : [need, have, unit])),
        );
      }),
      { numRuns: 100 },
    );
  });

  test("wider limits never add a breach", () => {
    const wider: ((parts: TinyParts) => TinyParts)[] = [
      (parts) => ({ ...parts, rules: { ...parts.rules, separation: { greatestM: 2000 } } }),
      (parts) => ({ ...parts, rules: { ...parts.rules, distance: { evaM: 9000, stayM: 9000 } } }),
      (parts) => ({ ...parts, rules: { ...parts.rules, work: { ...parts.rules!.work, longestS: 40_000 } } }),
      (parts) => ({ ...parts, rules: { ...parts.rules, work: { ...parts.rules!.work, restS: 0 } } }),
      (parts) => ({ ...parts, rules: { ...parts.rules, recharge: { leastS: 0 } } }),
      (parts) => ({ ...parts, rules: { ...parts.rules, returnMass: { greatestKg: 100 } } }),
      (parts) => ({ ...parts, rules: { ...parts.rules, duty: { stayS: 90_000 } } }),
      (parts) => ({ ...parts, rules: { ...parts.rules, blast: { leastM: 0 } } }),
      (parts) => ({ ...parts, suit: { ...parts.suit, emergencyOxygenS: 9000 } }),
      (parts) => ({ ...parts, suit: { ...parts.suit, oxygenKg: 9 } }),
      (parts) => ({ ...parts, evas: parts.evas!.map((one) => ({ ...one, longestS: 90_000 })) }),
      (parts) => ({ ...parts, evas: parts.evas!.map((one) => ({ ...one, earliestEgressS: -90_000 })) }),
      (parts) => ({ ...parts, stay: { ...parts.stay, lengthS: 200_000 } }),
      (parts) => ({ ...parts, stay: { ...parts.stay, blocks: [] } }),
      (parts) => ({ ...parts, more: { ...parts.more, links: [] } }),
      (parts) => ({
        ...parts,
        more: { ...parts.more, equipment: [{ id: "drill", name: "Drill", count: 9 }] },
      }),
      (parts) => ({ ...parts, tasks: parts.tasks!.map((task) => ({ ...task, windows: [] })) }),
      (parts) => ({ ...parts, tasks: parts.tasks!.map(unpinned) }),
    ];
    fc.assert(
      fc.property(partsArb, fc.constantFrom(...wider), (parts, widen) => {
        const before = new Set(breaches(judged(parts)));
        expect(breaches(judged(widen(parts))).filter((breach) => !before.has(breach))).toEqual([]);
      }),
      { numRuns: 250 },
    );
  });

  test("a rule that is only a warning gives a breach for what physics forbids, and for nothing else", () => {
    fc.assert(
      fc.property(partsArb, (parts) => {
        const level = "warning" as const;
        const rules = { ...parts.rules } as Record<string, object>;
        const named = [
          "reserve",
          "walkback",
          "separation",
          "distance",
          "blast",
          "work",
          "duty",
          "recharge",
          "returnMass",
        ];
        const warned = {
          ...rules,
          ...Object.fromEntries(named.map((name) => [name, { ...rules[name], level }])),
        };
        const strict = judged(parts);
        const mild = judged({ ...parts, rules: warned });
        const soft = new Set([
          ...["oxygen", "co2", "water", "battery"].map((name) => `${name}-reserve`),
          ...[
            "walk-back-emergency",
            "walk-back-consumables",
            "eva-distance",
            "stay-distance",
            "crew-separation",
          ],
          ...["return-mass", "blast-keep-out", "work-and-rest", "duty", "recharge"],
        ]);
        // Physics is what is left of the rules when nothing is kept back.
        const bareSuit = { ...parts.suit, reserve: { oxygen: 0, co2: 0, water: 0, battery: 0 } };
        const forbidden = new Set(
          judged({
            ...parts,
            suit: bareSuit,
            rules: { ...parts.rules, walkback: { emergencyReserveS: 0 } },
          })
            .findings.filter(({ rule, level: found }) => PHYSICS.has(rule) && found === "breach")
            .map(bare),
        );
        const hard = new Set(
          mild.findings.filter(({ rule, level: found }) => soft.has(rule) && found === "breach").map(bare),
        );
        const expected = strict.findings.map((finding) => {
          const key = bare({ ...finding, level: "breach" });
          if (!soft.has(finding.rule)) return bare(finding);
          if (finding.rule === "walk-back-consumables" && hard.has(key)) return key;
          return forbidden.has(key) && finding.rule !== "walk-back-consumables"
            ? key
            : bare({ ...finding, level: "tight" });
        });
        expect(mild.findings.map(bare).sort()).toEqual(expected.sort());
        for (const key of hard) expect(forbidden).toContain(key);
        // At the lander the walk-back says what the reserves say; there it leaves it to them.
        for (const key of forbidden)
          if (!hard.has(key)) expect([...hard].some((one) => sameSubjects(one, key))).toBe(true);
      }),
      { numRuns: 200 },
    );
  });
});

/** Rules under which a stock or the emergency oxygen may run out. */
const PHYSICS: ReadonlySet<string> = new Set([
  ...["oxygen", "co2", "water", "battery"].map((name) => `${name}-reserve`),
  "walk-back-emergency",
  "walk-back-consumables",
]);

/** True for bare findings about the same crew member on the same EVA. */
function sameSubjects(a: string, b: string): boolean {
  const subjects = (text: string): string => JSON.stringify((JSON.parse(text) as unknown[])[2]);
  return subjects(a) === subjects(b);
}

function unpinned(task: TaskInput): TaskInput {
  const free = { ...task };
  delete free.pin;
  return free;
}

/** Rules whose numbers are points in time. */
function absolute(rule: Finding["rule"]): boolean {
  return rule === "eva-bounds" || rule === "pin";
}

/** Every time from touchdown in `parts` later by `byS`, the stay longer by as much. */
function shifted(parts: TinyParts, byS: number): TinyParts {
  const both = <T extends { startS: number; endS: number }>(span: T): T => ({
    ...span,
    startS: span.startS + byS,
    endS: span.endS + byS,
  });
  return {
    ...parts,
    tasks: parts.tasks!.map((task) => ({
      ...task,
      ...(task.windows ? { windows: task.windows.map(both) } : {}),
      ...(task.pin ? { pin: { ...task.pin, startS: task.pin.startS! + byS } } : {}),
    })),
    placements: parts.placements!.map((placement) => ({ ...placement, startS: placement.startS + byS })),
    evas: parts.evas!.map((eva) => ({
      ...eva,
      earliestEgressS: eva.earliestEgressS + byS,
      latestIngressS: eva.latestIngressS + byS,
    })),
    stay: {
      ...parts.stay,
      lengthS: 72_000 + byS,
      blocks: parts.stay!.blocks!.map(both),
      relayPasses: parts.stay!.relayPasses!.map(both),
    },
  };
}

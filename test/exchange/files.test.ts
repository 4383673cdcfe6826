import { describe, expect, it } from "vitest";
import { planText } from "../../src/exchange/index.ts";
import { scheduleCsv } from "../../src/exchange/schedulecsv.ts";
import { parseText, type Plan } from "../../src/plan/index.ts";
import { samplePlan } from "./samplePlan.ts";

/** The same record with its fields set in the opposite order, all the way down. */
function reversed(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(reversed);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, item]) => [key, reversed(item)]),
  );
}

describe("plan file", () => {
  it("reads back as the same plan", () => {
    const plan = samplePlan();
    expect(parseText(planText(plan))).toEqual({ ok: true, value: plan });
  });

  it("does not depend on the order in which fields were set", () => {
    const plan = samplePlan();
    expect(planText(reversed(plan) as Plan)).toBe(planText(plan));
  });

  it("shows one moved task as one changed line", () => {
    const plan = samplePlan();
    const placements = plan.schedule.placements.map((placement, i) =>
      i === 3 ? { ...placement, startS: (placement.startS + 60) as never } : placement,
    );
    const before = planText(plan).split("\n");
    const after = planText({ ...plan, schedule: { placements } }).split("\n");
    expect(after).toHaveLength(before.length);
    expect(after.filter((line, i) => line !== before[i])).toEqual([
      `      { "task": "antenna", "eva": "eva-1", "crew": ["ev2"], "startS": 9660 },`,
    ]);
  });

  it("leaves out fields that say nothing", () => {
    expect(planText({ ...samplePlan(), notes: undefined as never })).not.toContain('"notes": undefined');
    expect(
      () => JSON.parse(planText({ ...samplePlan(), notes: undefined as never })) as unknown,
    ).not.toThrow();
  });
});

describe("schedule as comma-separated values", () => {
  const rows = scheduleCsv(samplePlan()).split("\r\n");

  it("has a row a placement by start, in MET and UTC", () => {
    expect(rows).toHaveLength(1 + 9 + 1);
    expect(rows[0]).toMatch(/^task,number,name,eva,crew,place,end place,start MET s/);
    expect(rows[2]).toBe(
      "carry-unit,2,Carry the seismic unit to the pad,eva-1,ev1 ev2,lander,pad,5760,6960," +
        "2031-04-05T07:36:00Z,2031-04-05T07:56:00Z,yes,10,",
    );
  });

  it("quotes commas, quotes and breaks, and keeps formulas as text", () => {
    const plan = samplePlan();
    const named = (name: string) =>
      scheduleCsv({ ...plan, tasks: plan.tasks.map((task) => ({ ...task, name })) }).split("\r\n")[1];
    expect(named('say "a, b"')).toContain('quick-sample,1,"say ""a, b""",eva-1');
    expect(named("=1+1")).toContain("quick-sample,1,'=1+1,eva-1");
  });
});

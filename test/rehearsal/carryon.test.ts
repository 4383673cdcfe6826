import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { parseText, type Plan } from "../../src/plan/index.ts";
import {
  type Call,
  isMark,
  played,
  type Rehearsal,
  rehearsalFrom,
  standingOf,
} from "../../src/rehearsal/index.ts";
import { greedy } from "../../src/solver/index.ts";
import { walksOf } from "../../src/terrain/index.ts";

function ready(name: string): Plan {
  const read = parseText(readFileSync(`public/plans/${name}.json`, "utf8"));
  if (!read.ok) throw new Error(`${name} is no plan`);
  return { ...read.value, schedule: greedy(read.value) };
}

/** The plan with durations that do not spread. */
function certain(plan: Plan): Plan {
  return {
    ...plan,
    tasks: plan.tasks.map((task) => ({ ...task, duration: { likelyS: task.duration.likelyS } })),
  };
}

function judged(plan: Plan) {
  return judgeFor(plan)(plan.schedule);
}

const end = (plan: Plan): number => plan.stay.lengthS;

describe.each(["small", "demo"])("the %s plan, rehearsed", (name) => {
  const plan = certain(ready(name));
  const walks = walksOf(plan);
  const verdict = judged(plan);
  const from = rehearsalFrom(0, 1);

  it("goes as planned when everything takes its likely time", () => {
    const after = played(plan, from, end(plan), walks);
    const { placements, plan: gone } = standingOf(plan, after, walks);
    const times = new Map(plan.schedule.placements.map((spot) => [spot.task, spot.startS]));
    expect(placements).toHaveLength(times.size);
    for (const placement of placements) {
      expect(placement.state).toBe("done");
      expect(placement.startS, placement.task).toBe(times.get(placement.task));
    }
    for (const { eva, span } of verdict.outings) {
      expect(after.calls).toContainEqual({ kind: "out", eva, atS: span.startS });
      expect(after.calls).toContainEqual({ kind: "in", eva, atS: span.endS });
    }
    expect(gone.tasks.filter((task) => isMark(task.id))).toEqual([]);
    const again = judged(gone);
    expect(again.margins).toEqual(verdict.margins);
    expect(again.score.breaches).toBe(0);
  });

  it("gives the packer a plan that nothing is wrong with for as long as all goes as planned", () => {
    for (let nowS = 0; nowS < end(plan); nowS += 2711) {
      const { ahead } = standingOf(plan, played(plan, from, nowS, walks), walks);
      const broken = judged(ahead).findings.filter(({ level }) => level === "breach");
      expect(broken.map(({ sentence }) => sentence)).toEqual([]);
    }
  });

  it("does not depend on how the clock ticks", () => {
    const spread = ready(name);
    let ticked: Rehearsal = rehearsalFrom(0, 7);
    for (let nowS = 0; nowS <= end(plan); nowS += 977) ticked = played(spread, ticked, nowS, walks);
    ticked = played(spread, ticked, end(plan), walks);
    expect(ticked.calls).toEqual(played(spread, rehearsalFrom(0, 7), end(plan), walks).calls);
    expect(played(spread, rehearsalFrom(0, 8), end(plan), walks).calls).not.toEqual(ticked.calls);
  });

  it("keeps the order and the ways whatever slips, and moves nothing that is past", () => {
    const spread = ready(name);
    const span = verdict.outings[0]!.span;
    const calls: Call[] = [
      { kind: "hold", atS: instant(span.startS), untilS: instant(span.startS + 1500) },
      { kind: "slower", atS: instant(span.startS), crew: plan.crew[0]!.id, percent: 140 },
    ];
    for (let nowS: number = span.startS; nowS < span.endS; nowS += 1801) {
      // Durations as they are drawn: whoever is late holds up who waits.
      const now = played(spread, { ...from, calls }, nowS, walks);
      const standing = standingOf(spread, now, walks);
      const rules = judged(standing.plan).findings.filter(({ level }) => level === "breach");
      expect(
        rules.filter(({ rule }) => rule === "one-at-a-time" || rule === "link-lag" || rule === "equipment"),
      ).toEqual([]);
      for (const placement of standing.placements) {
        if (placement.state === "to come") expect(placement.startS).toBeGreaterThanOrEqual(nowS);
        if (placement.state === "done") expect(placement.endS).toBeLessThanOrEqual(nowS);
      }
    }
  });

  it("counts an egress that was too early and an ingress that was late as time outside", () => {
    const { eva, span } = verdict.outings[0]!;
    const early = { kind: "out", eva, atS: instant(span.startS - 600) } as const;
    const out = standingOf(plan, { ...from, nowS: early.atS, calls: [early] }, walks);
    expect(judged(out.plan).outings.find((one) => one.eva === eva)?.span.startS).toBe(early.atS);

    const done = played(plan, from, span.endS - 1, walks);
    const late = { kind: "in", eva, atS: instant(span.endS + 900) } as const;
    const back = standingOf(plan, { ...done, nowS: late.atS, calls: [...done.calls, late] }, walks);
    expect(judged(back.plan).outings.find((one) => one.eva === eva)?.span.endS).toBe(late.atS);
  });
});

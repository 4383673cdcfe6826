import { describe, expect, it } from "vitest";
import { duration, instant } from "../../src/kernel/index.ts";
import { demandAndSupply } from "../../src/session/index.ts";
import { sessionWith } from "./bench.ts";

describe("asked against there", () => {
  const { plan } = sessionWith().session.state.getState();

  it("is likely time by crew against the time between egress and ingress work, by crew member", () => {
    const tasks = plan.tasks.map((task, i) => ({
      ...task,
      must: i === 0,
      duration: { ...task.duration, likelyS: duration(900) },
      crew: { ...task.crew, count: i },
    }));
    const evas = plan.evas.map((eva) => ({
      ...eva,
      crew: ["ev1", "ev2"],
      earliestEgressS: instant(4800),
      latestIngressS: instant(28_800),
      longestS: duration(23_400),
      egressWorkS: duration(1080),
      ingressWorkS: duration(1320),
    }));
    const sums = demandAndSupply({ tasks, evas });
    // Three tasks of 15 min for none, one and two: 0, 900 and 1800 s. The first, by command, is no crew time.
    expect([sums.demandS, sums.mustS, sums.tasks, sums.must]).toEqual([2700, 0, 2, 0]);
    // 6:30 at most, less 18 min and 22 min: 5:50 for each of two.
    expect(sums.outings.map(({ workS }) => workS)).toEqual([21_000, 21_000]);
    expect(sums.thereS).toBe(42_000);
  });

  it("counts no more than lies between earliest egress and latest ingress", () => {
    const evas = plan.evas.map((eva) => ({
      ...eva,
      crew: ["ev1"],
      earliestEgressS: instant(1000),
      latestIngressS: instant(4000),
      longestS: duration(20_000),
      egressWorkS: duration(1000),
      ingressWorkS: duration(1500),
    }));
    expect(demandAndSupply({ tasks: [], evas }).thereS).toBe(500);
  });
});

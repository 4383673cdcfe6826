import { MessageChannel } from "node:worker_threads";
import { describe, expect, it } from "vitest";
import { connect } from "../../src/engine/client.ts";
import type { Hearing } from "../../src/engine/calls.ts";
import { makeCore } from "../../src/engine/core.ts";
import type { FromWorker, Port, ToWorker } from "../../src/engine/messages.ts";
import { serve } from "../../src/engine/server.ts";
import { inTeam } from "../../src/engine/team.ts";
import { task, tinyPlan } from "../check/tinyPlan.ts";

/** What was found is the answer where that is said to be enough, against a core whose clock ticks at every look. */

const ENDLESS_S = 3600;
const TICK_S = 0.001;
/** Turns that are let pass before it is enough. */
const TURNS = 40;

const plan = tinyPlan({
  tasks: [task("one", "a", { must: true, worth: 10 }), task("two", "a", { worth: 5 }), task("far", "b")],
});

function ticking() {
  let nowS = 0;
  return makeCore(() => (nowS += TICK_S));
}

/** How a call runs of which so many turns are enough, by the signal of this name. */
function ended(by: "enough" | "signal") {
  const control = new AbortController();
  let turns = 0;
  const yieldToHost = async (): Promise<void> => {
    turns += 1;
    if (turns === TURNS) control.abort();
  };
  return { yieldToHost, [by]: control.signal };
}

describe("a search of which it is enough", () => {
  it("gives a day packed for a wish with its chances counted, where one that is broken off has none", async () => {
    const options = { seed: 1, seconds: ENDLESS_S, aim: "wish" } as const;
    const enough = await ticking().pack(plan, options, ended("enough"));
    expect(enough.stopped).toBe("cancelled");
    expect(enough.seconds).toBeLessThan(ENDLESS_S / 10);
    expect(enough.wished!.days).toBeGreaterThan(0);
    expect(enough.wished!.schedule).toEqual(enough.schedule);
    const broken = await ticking().pack(plan, options, ended("signal"));
    expect(broken.wished).toBeUndefined();
  });

  it("gives the days of a curve that were found, each counted", async () => {
    const options = { seed: 1, seconds: ENDLESS_S };
    const { days, seconds } = await ticking().curve(plan, options, ended("enough"));
    expect(seconds).toBeLessThan(ENDLESS_S / 10);
    expect(days.length).toBeGreaterThan(0);
    for (const day of days) {
      expect(day.days).toBeGreaterThan(0);
      expect(day.verdict.score.breaches).toBe(0);
    }
    expect((await ticking().curve(plan, options, ended("signal"))).days).toEqual([]);
  });

  it("gives the best day so far of a pack for likely durations", async () => {
    const made = await ticking().pack(
      plan,
      { seed: 1, seconds: ENDLESS_S, proveSeconds: 0 },
      ended("enough"),
    );
    expect(made.verdict.score).toMatchObject({ breaches: 0, mustLeftOut: 0 });
  });

  it.each([
    ["said while it works", 2],
    ["said before it is asked", 0],
  ])("is %s over the wire, and by a team", async (_, reports) => {
    const engines = [behindWire(), behindWire()];
    const control = new AbortController();
    if (reports === 0) control.abort();
    let heard = 0;
    const hearing: Hearing<"pack"> & Hearing<"curve"> = {
      enough: control.signal,
      report: () => {
        heard += 1;
        if (heard === reports) control.abort();
      },
    };
    try {
      const options = { seed: 1, seconds: ENDLESS_S, aim: "wish" } as const;
      const team = inTeam(engines[0]!, () => engines.slice(1));
      const made = await team.pack(plan, options, hearing);
      expect(made.stopped).toBe("cancelled");
      expect(made.verdict.score).toMatchObject({ breaches: 0, mustLeftOut: 0 });
      expect((await team.curve(plan, options, hearing)).seconds).toBeLessThan(ENDLESS_S / 10);
    } finally {
      for (const engine of engines) engine.close();
    }
  });
});

/** A core of its own at the other end of a channel, in this thread. */
function behindWire() {
  const { port1, port2 } = new MessageChannel();
  serve(
    port2 as unknown as Port<FromWorker>,
    ticking(),
    () => new Promise((resolve) => setImmediate(resolve)),
  );
  return connect(port1 as unknown as Port<ToWorker>, () => port1.close());
}

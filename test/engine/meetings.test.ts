import { MessageChannel } from "node:worker_threads";
import { describe, expect, it } from "vitest";
import type { HandedDay } from "../../src/answers/index.ts";
import type { Meet } from "../../src/engine/calls.ts";
import { connect } from "../../src/engine/client.ts";
import { makeCore } from "../../src/engine/core.ts";
import { meetingsOf } from "../../src/engine/meetings.ts";
import type { FromWorker, Port, ToWorker } from "../../src/engine/messages.ts";
import { serve } from "../../src/engine/server.ts";
import type { Schedule } from "../../src/plan/index.ts";
import { readyPlan } from "../readyplan.ts";

/** A day that is told apart by the one task that it has. */
function day(task: string, ...value: number[]): HandedDay {
  return { schedule: { placements: [{ task, eva: null, crew: [], startS: 0 as never }] }, value };
}

/** What is heard at a meeting; "waits" while nothing is. */
async function heard(answer: Promise<Schedule | null>): Promise<string | null> {
  const now = await Promise.race([
    answer,
    new Promise<"waits">((resolve) => setImmediate(() => resolve("waits"))),
  ]);
  return now === null || now === "waits" ? now : now.placements[0]!.task;
}

describe("a meeting of packs", () => {
  it("is waited for by all, who then hear of the best day, but for the one whose day that is", async () => {
    const meetings = meetingsOf(3, true);
    const first = meetings.meet(0, day("a", 0, 10, -5));
    const second = meetings.meet(1, day("b", 0, 12, -9));
    expect(await heard(first)).toBe("waits");
    expect(await heard(second)).toBe("waits");
    // Fewer must-do tasks left out come before all worth.
    const third = meetings.meet(2, day("c", -1, 50, -1));
    expect(await heard(first)).toBe("b");
    expect(await heard(second)).toBe(null);
    expect(await heard(third)).toBe("b");
  });

  it("tells nobody of a day that is worth as much as its own", async () => {
    const meetings = meetingsOf(2, true);
    const answers = [meetings.meet(0, day("a", 7, 3)), meetings.meet(1, day("b", 7, 3))];
    expect(await Promise.all(answers.map(heard))).toEqual([null, null]);
  });

  it("does not wait for who has come to its end", async () => {
    const meetings = meetingsOf(2, true);
    const waiting = meetings.meet(1, day("b", 1));
    expect(await heard(waiting)).toBe("waits");
    meetings.leave(0);
    expect(await heard(waiting)).toBe(null);
    expect(await heard(meetings.meet(1, day("c", 2)))).toBe(null);
  });

  it("waits for nobody where time is short: what is there already is heard of", async () => {
    const meetings = meetingsOf(2, false);
    expect(await heard(meetings.meet(0, day("a", 1)))).toBe(null);
    expect(await heard(meetings.meet(1, day("b", 0)))).toBe("a");
    expect(await heard(meetings.meet(0, day("c", -1)))).toBe("b");
  });
});

describe("a pack over the wire", () => {
  const plan = readyPlan("demo");
  const options = { seed: 2, seconds: Infinity, iterations: 200, proveSeconds: 0 };
  const yieldToHost = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

  async function packed(meet?: Meet, enough?: AbortSignal) {
    const { port1, port2 } = new MessageChannel();
    serve(
      port2 as unknown as Port<FromWorker>,
      makeCore(() => 0),
      yieldToHost,
    );
    const engine = connect(port1 as unknown as Port<ToWorker>, () => port1.close());
    try {
      return await engine.pack(plan, options, { meet, enough });
    } finally {
      engine.close();
    }
  }

  it.each(["likely", "wish"] as const)(
    "hands its days on and goes on from a better one of another (%s)",
    async (aim) => {
      const core = makeCore(() => 0);
      const other = await core.pack(plan, { ...options, aim, seed: 5, iterations: 900 });
      const handed: HandedDay[] = [];
      const meet: Meet = async (one) => {
        handed.push(one);
        return other.schedule;
      };
      const alone = await core.pack(plan, { ...options, aim });
      const made = await core.pack(plan, { ...options, aim }, { meet });
      expect(handed.length).toBeGreaterThan(1);
      expect(other.verdict.score.worth).toBeGreaterThan(alone.verdict.score.worth);
      expect(made.verdict.score.worth).toBeGreaterThan(alone.verdict.score.worth);
    },
  );

  it("hears of others, and of none where nobody asks", async () => {
    const worths: number[] = [];
    const made = await packed(async (one) => {
      worths.push(one.value[1]!);
      return null;
    });
    expect(worths.length).toBe(4);
    expect(made.schedule).toEqual((await packed()).schedule);
  });

  it("goes on where what the others have cannot be heard", async () => {
    const made = await packed(() => Promise.reject(new Error("lost")));
    expect(made.verdict.score.breaches).toBe(0);
  });

  it("does not wait once what it found is enough", async () => {
    const enough = new AbortController();
    const made = await packed(() => {
      enough.abort();
      return new Promise(() => undefined);
    }, enough.signal);
    expect(made.stopped).toBe("cancelled");
    expect(made.verdict.score.breaches).toBe(0);
  });
});

import { describe, expect, it } from "vitest";
import type { Core } from "../../src/engine/core.ts";
import { CALLS, EngineError } from "../../src/engine/calls.ts";
import type { FromWorker, Port, ToWorker } from "../../src/engine/messages.ts";

import { serve } from "../../src/engine/server.ts";
import { type Pace, supervised } from "../../src/engine/supervised.ts";
import { keysOf } from "../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { HandClock } from "../session/bench.ts";

const plan = { title: "a plan" } as Plan;
const schedule: Schedule = { placements: [] };
const options = { seed: 1, seconds: 60 };
const BEAT_MS = 1000;

/** A worker in this thread: messages come by the turn of the queue, until it hangs, dies or is ended. */
class LocalWorker {
  hung = false;
  /** It hears nothing, but may still speak. */
  deaf = false;
  ended = false;
  failed: (message: string) => void = () => undefined;
  private near: Port<ToWorker> = { postMessage: (message) => this.pass(this.far, message), onmessage: null };
  private far: Port<FromWorker> = {
    postMessage: (message) => this.pass(this.near, message),
    onmessage: null,
  };

  constructor(core: object) {
    serve(this.far, core as Core, () => new Promise((resolve) => setImmediate(resolve)));
  }

  says(message: FromWorker): void {
    this.near.onmessage?.({ data: message as never });
  }

  private pass(to: Port<never>, message: unknown): void {
    queueMicrotask(() => {
      if (!this.hung && !this.ended && !(this.deaf && to === this.far))
        to.onmessage?.({ data: message as never });
    });
  }

  worked() {
    return {
      port: this.near,
      end: () => (this.ended = true),
      onError: (told: (message: string) => void) => (this.failed = told),
    };
  }
}

const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));

/** An engine over workers of the given cores, one after the other; the last one serves for all that follow. The machine is undisturbed. */
const engineOver = (...cores: readonly object[]) => engineAt((tell) => tell(1), cores);

/** The same on a machine of another pace. */
function engineAt(pace: Pace, cores: readonly object[]) {
  const workers: LocalWorker[] = [];
  const told: string[] = [];
  const clock = new HandClock();
  const engine = supervised(
    () => {
      const worker = new LocalWorker(cores[Math.min(workers.length, cores.length - 1)]!);
      workers.push(worker);
      return worker.worked();
    },
    (ms, run) => clock.after(ms, run),
    pace,
    (words) => told.push(words),
  );
  const beats = async (count: number): Promise<void> => {
    for (let k = 0; k < count; k += 1) {
      clock.moveOn(BEAT_MS);
      await turn();
    }
  };
  return { engine, workers, told, beats };
}

const sound = { check: (one: Plan) => ({ title: one.title }), pack: () => ({ packed: true }) };
const endless = { ...sound, pack: () => new Promise(() => undefined) };
const outcome = (asked: Promise<unknown>): Promise<unknown> =>
  asked.catch((error: unknown) => (error instanceof EngineError ? error.reason : error));

describe("a worker that fails", () => {
  it("by throwing in a call: that call is settled, the worker goes on, nothing else is told", async () => {
    const { engine, workers, told } = engineOver({
      ...sound,
      pack: () => {
        throw new Error("no way through");
      },
    });
    await expect(engine.pack(plan, options)).rejects.toMatchObject({
      reason: "failed",
      message: "no way through",
    });
    expect(await engine.check(plan, { schedule })).toEqual({ title: "a plan" });
    expect([workers.length, told]).toEqual([1, []]);
  });

  for (const [how, message] of [
    ["by an error it does not catch", "Script error"],
    ["by running out of memory", "out of memory"],
  ] as const) {
    it(`${how}: it is told at once, its call settled, and a new one answers, with the plan`, async () => {
      const { engine, workers, told } = engineOver(endless, sound);
      const packing = outcome(engine.pack(plan, options));
      await turn();
      workers[0]!.failed(message);
      expect(await packing).toBe("failed");
      expect(told).toEqual([
        `What packs and checks in the background failed (${message}). It was started anew; the plan is as it was.`,
      ]);
      expect(workers[0]!.ended).toBe(true);
      expect(await engine.check(plan, { schedule })).toEqual({ title: "a plan" });
      expect(workers).toHaveLength(2);
    });
  }

  it("by hanging in a call: told and settled within 5 s, and what it had not come to is answered by a new one", async () => {
    const { engine, workers, told, beats } = engineOver(endless, sound);
    const packing = outcome(engine.pack(plan, options));
    await beats(3);
    workers[0]!.hung = true;
    const checking = engine.check(plan, { schedule });
    await beats(3);
    expect(told).toEqual([]);
    await beats(1);
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(/did not answer any more.*started anew/);
    expect(await packing).toBe("failed");
    expect(await checking).toEqual({ title: "a plan" });
    expect(workers).toHaveLength(2);
  });

  it("by dying without a word while it had nothing to do: the next call is answered all the same", async () => {
    const { engine, workers, told, beats } = engineOver(sound, sound);
    await engine.check(plan, { schedule });
    await beats(2);
    workers[0]!.hung = true;
    const packing = engine.pack(plan, options);
    await beats(4);
    expect(await packing).toEqual({ packed: true });
    expect([workers.length, told.length]).toEqual([2, 1]);
  });

  it("is not one that is slow: as long as it answers it may take as long as it likes", async () => {
    const { engine, workers, told, beats } = engineOver(endless);
    const packing = outcome(engine.pack(plan, options));
    await beats(100);
    expect([workers.length, told]).toEqual([1, []]);
    engine.close();
    expect(await packing).toBe("closed");
  });

  it("is given longer while its code may still be on the way", async () => {
    const silent = engineOver(sound);
    silent.engine.check(plan, { schedule }).catch(() => undefined);
    silent.workers[0]!.hung = true;
    await silent.beats(19);
    expect(silent.told).toEqual([]);
    await silent.beats(1);
    expect(silent.told).toHaveLength(1);
    silent.engine.close();
  });

  it.each(keysOf(CALLS))(
    "by hanging in %s: told and settled after five beats at most, whatever is asked",
    async (name) => {
      const hanging = { check: sound.check, [name]: () => new Promise(() => undefined) };
      const { engine, workers, told, beats } = engineOver(hanging, sound);
      if (name !== "check") await engine.check(plan, { schedule });
      const asked = outcome(engine[name](plan, {} as never));
      await beats(1);
      workers[0]!.hung = true;
      await beats(5);
      expect(told).toHaveLength(1);
      expect(await asked).toBe("failed");
    },
  );

  it("is not one that works in one go for long, as long as it says so from inside", async () => {
    const { engine, workers, told, beats } = engineOver(sound);
    await engine.check(plan, { schedule });
    workers[0]!.deaf = true;
    const packing = outcome(engine.pack(plan, options));
    for (let k = 0; k < 39; k += 1) {
      await beats(3);
      workers[0]!.says({ type: "pulse" });
      await turn();
    }
    expect([workers.length, told]).toEqual([1, []]);
    // Not for ever: what goes round in circles says so too.
    await beats(3);
    expect(told[0]).toMatch(/did not come to an end.*started anew/);
    // It had not come to the pack, which goes to the new one.
    expect(await packing).toEqual({ packed: true });
  });

  it("is not one that gets no turn: a beat of a machine ten times slower counts a tenth", async () => {
    const { engine, workers, told, beats } = engineAt((tell) => tell(10), [endless, sound]);
    const packing = outcome(engine.pack(plan, options));
    await beats(1);
    workers[0]!.hung = true;
    // Two beats before the pace is known, then 20 tenths and a bit.
    await beats(21);
    expect(told).toEqual([]);
    await beats(2);
    expect(told).toHaveLength(1);
    expect(await packing).toBe("failed");
  });

  it("is not held dead while the machine does not even come to measure its pace", async () => {
    const asked: ((slowness: number) => void)[] = [];
    const { engine, workers, told, beats } = engineAt((tell) => asked.push(tell), [endless, sound]);
    const packing = outcome(engine.pack(plan, options));
    await beats(1);
    workers[0]!.hung = true;
    await beats(25);
    expect([told, asked.length]).toEqual([[], 1]);
    asked[0]!(1);
    await beats(1);
    asked[1]!(1);
    await beats(1);
    expect(await packing).toBe("failed");
    expect(told).toHaveLength(1);
  });

  it("again and again is given up, and that is told", async () => {
    const { engine, workers, told } = engineOver(endless);
    for (let k = 0; k < 3; k += 1) {
      const packing = outcome(engine.pack(plan, options));
      await turn();
      workers.at(-1)!.failed("Script error");
      expect(await packing).toBe("failed");
    }
    expect(told[2]).toMatch(/stays off until the page is loaded anew/);
    expect(await outcome(engine.check(plan, { schedule }))).toBe("failed");
    expect(workers).toHaveLength(3);
  });

  it("is not what a cancelled call ends in", async () => {
    const { engine, workers, told, beats } = engineOver(endless);
    const enough = new AbortController();
    const packing = outcome(engine.pack(plan, options, { signal: enough.signal }));
    await beats(1);
    enough.abort();
    expect(await packing).toBe("cancelled");
    await beats(30);
    expect([workers.length, told]).toEqual([1, []]);
  });
});

import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../src/check/index.ts";
import { random, type Random } from "../../../src/kernel/index.ts";
import { createSession, type Session } from "../../../src/session/index.ts";
import type { Archive } from "../../../src/session/shelf/records.ts";
import { browserArchive } from "../../../src/session/shelf/archive.ts";
import { freshShelf, HandClock, HandEngine, openRecord, putOpen, settled, smallInput } from "../bench.ts";

/** The shelf as a slow disk: a write takes up to 90 ms of the clock, and one under way when the browser dies leaves nothing. */
class SlowShelf {
  dead = false;
  /** The write that the store is about to answer, in real time, which the clock of the test does not count. */
  answering: Promise<unknown> = Promise.resolve();
  readonly archive: Archive;

  constructor(shelf: Archive, clock: HandClock, stream: Random) {
    this.archive = {
      ...shelf,
      writePlan: (card, record, expected) =>
        new Promise((resolve, reject) => {
          clock.after(Math.floor(stream.next() * 90), () => {
            if (this.dead) return;
            this.answering = shelf.writePlan(card, record, expected).then(resolve, reject);
          });
        }),
    };
  }
}

/** One visit over the shelf that ends by the browser dying; the edits made, each with its time, as numbers in the title. */
async function visitUntilKilled(
  shelf: Archive,
  stream: Random,
  from: number,
): Promise<{ made: number[]; diedMs: number }> {
  const clock = new HandClock();
  const slow = new SlowShelf(shelf, clock, stream);
  const ids = `w${from}`;
  let id = 0;
  const session = createSession({
    engine: new HandEngine(),
    judgeFor,
    archive: slow.archive,
    clock,
    newId: () => `${ids}-${(id += 1)}`,
    readyText: () => Promise.reject(new Error("none")),
  });
  await session.restore();
  const beganMs = clock.nowMs();
  const diesMs = beganMs + 50 + stream.below(2000);
  const made: number[] = [];
  // Bursts of a held key and slow work by turns.
  let nextMs = beganMs;
  let stepMs = 40;
  while (clock.nowMs() < diesMs) {
    if (clock.nowMs() >= nextMs) {
      if (stream.next() < 0.1) stepMs = [15, 40, 120, 900][stream.below(4)]!;
      nextMs = clock.nowMs() + 1 + stream.below(2 * stepMs);
      session.edit("Count", () => ({ title: `Edit ${from + made.length + 1}` }));
      made.push(clock.nowMs());
    }
    clock.moveOn(10);
    await settled();
    await slow.answering;
    await settled();
  }
  slow.dead = true;
  return { made, diedMs: clock.nowMs() };
}

const count = (session: Session): number =>
  Number(/\d+$/.exec(session.state.getState().plan.title)?.[0] ?? 0);

describe("a browser that dies", () => {
  it("has lost nothing older than a second in any of 200 deaths, and can still take steps back", async () => {
    const shelf = browserArchive(freshShelf());
    const stream = random(20_311);
    const text = JSON.stringify({ ...smallInput, title: "Edit 0" });
    await putOpen(shelf, { text, savedAtMs: 0, writer: "w" });
    let last = 0;
    let edits = 0;
    let greatestLossMs = 0;
    for (let kill = 0; kill < 200; kill += 1) {
      const { made, diedMs } = await visitUntilKilled(shelf, stream, last);
      const found = await openRecord(shelf);
      const kept = Number(/"title": ?"Edit (\d+)"/.exec(found?.text ?? "")?.[1]);
      expect(kept, `death ${kill}`).toBeGreaterThanOrEqual(last);
      const lost = made.slice(kept - last);
      const [oldest] = lost;
      if (oldest !== undefined) greatestLossMs = Math.max(greatestLossMs, diedMs - oldest);
      expect(oldest ?? diedMs, `death ${kill}: ${lost.length} edits lost`).toBeGreaterThan(diedMs - 1000);
      edits += made.length;
      last = kept;
    }
    expect(edits).toBeGreaterThan(1000);
    // 150 ms until it is written, up to 90 ms for a write under way and as much for its own, in steps of 10 ms.
    expect(greatestLossMs).toBeLessThanOrEqual(150 + 90 + 90 + 30);

    const clock = new HandClock();
    const again = createSession({
      engine: new HandEngine(),
      judgeFor,
      archive: shelf,
      clock,
      newId: () => "again",
      readyText: () => Promise.reject(new Error("none")),
    });
    expect(await again.restore()).toBe(true);
    expect(count(again)).toBe(last);
    for (let back = 1; back <= 200; back += 1) {
      expect(again.undo()).toBe("Count");
      expect(count(again)).toBeLessThan(last);
    }
  });
});

import { describe, expect, it } from "vitest";
import { random } from "../../../src/kernel/index.ts";
import type { KeptState, StateKind } from "../../../src/session/index.ts";
import { beyondRoom } from "../../../src/session/shelf/room.ts";

const state = (key: number, kind: StateKind, bytes: number): KeptState => ({
  key,
  kind,
  bytes,
  slot: "a",
  atMs: key,
  name: "",
  note: "",
  author: "",
});

describe("the room for states", () => {
  it("lets the oldest go first, of those kept by themselves before revisions, and keeps the newest whatever its size", () => {
    const states = [
      state(1, "revision", 4),
      state(2, "hour", 4),
      state(3, "pack", 4),
      state(4, "opened", 4),
      state(5, "pack", 4),
    ];
    const gone = (bytes: number, count = 99): number[] =>
      beyondRoom(states, { bytes, count } as never).map((one) => one.key);
    expect(gone(20)).toEqual([]);
    expect(gone(16)).toEqual([2]);
    expect(gone(12)).toEqual([4, 2]);
    expect(gone(8)).toEqual([3, 4, 2]);
    expect(gone(99, 3)).toEqual([4, 2]);
    expect(gone(1)).toEqual([1, 3, 4, 2]);
  });

  it("is never exceeded by more than the newest, on 200 random lists", () => {
    const stream = random(5);
    const kinds: readonly StateKind[] = ["opened", "hour", "pack", "merge", "sent", "left", "revision"];
    for (let round = 0; round < 200; round += 1) {
      const states = Array.from({ length: stream.below(40) }, (_, k) =>
        state(k, kinds[stream.below(kinds.length)]!, 1 + stream.below(50)),
      );
      const room = { bytes: 100 + stream.below(400), count: 1 + stream.below(20) };
      const gone = new Set(beyondRoom(states, room as never));
      const kept = states.filter((one) => !gone.has(one));
      expect(kept.length).toBeLessThanOrEqual(Math.max(1, room.count));
      const [newest, ...others] = kept.toReversed();
      expect(newest).toBe(states.at(-1));
      const bytes = others.reduce((sum, one) => sum + one.bytes, newest?.bytes ?? 0);
      if (others.length > 0) expect(bytes).toBeLessThanOrEqual(room.bytes);
    }
  });
});

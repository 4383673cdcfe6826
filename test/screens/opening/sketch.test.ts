import { describe, expect, it } from "vitest";
import { random } from "../../../src/kernel/index.ts";
import { sketchOf } from "../../../src/screens/opening/sketch.ts";
import { mutated } from "../../fuzz/mutate.ts";
import { readyText } from "../../readyplan.ts";
import { samplePlan } from "../../exchange/samplePlan.ts";

describe("the first picture of a document that nobody has read yet", () => {
  it("has every placed task on the lanes of its crew, where it stands, and the others on the bench", () => {
    const plan = samplePlan();
    const sketch = sketchOf(plan);
    expect(sketch?.title).toBe(plan.title);
    const name = (id: string): string => plan.tasks.find((task) => task.id === id)?.name ?? "";
    const drawn = sketch?.evas.flatMap(({ lanes }) => lanes.flatMap(({ blocks }) => blocks)) ?? [];
    expect(drawn.map((block) => block.name).sort()).toEqual(
      plan.schedule.placements.flatMap(({ task, crew }) => crew.map(() => name(task))).sort(),
    );
    for (const { from, to } of drawn) {
      expect(from).toBeGreaterThanOrEqual(0);
      expect(to).toBeGreaterThan(from);
      expect(to).toBeLessThanOrEqual(1);
    }
    const placed = new Set(plan.schedule.placements.map(({ task }) => task));
    expect(sketch?.bench).toEqual(plan.tasks.filter(({ id }) => !placed.has(id)).map((task) => task.name));
  });

  it("is none where there is no document of a day", () => {
    for (const other of [null, 7, "text", [], {}, { title: 7 }]) expect(sketchOf(other)).toBeNull();
  });

  it("is drawn from whatever a spoilt file holds, without a word of its faults", () => {
    const sound = new TextEncoder().encode(readyText("small"));
    const draw = random(11);
    let read = 0;
    for (let number = 0; number < 3000; number += 1) {
      const text = new TextDecoder().decode(mutated(sound, draw.split()));
      let document: unknown;
      try {
        document = JSON.parse(text);
      } catch {
        continue;
      }
      read += 1;
      expect(() => sketchOf(document)).not.toThrow();
    }
    expect(read).toBeGreaterThan(20);
  });
});

import type { Pairs } from "../pair.ts";
import { at, task, tinyPlan } from "../tinyPlan.ts";

/** Samples of 0.1, 0.2 and 2.7 kg (3 kg) and 1.1 L each (3.3 L) in one box. */
export const plan = (capacityKg: number, volumeL: number) =>
  tinyPlan({
    tasks: [0.1, 0.2, 2.7].map((massKg, i) =>
      task(`t${i}`, "a", { sample: { container: "box", massKg, volumeL: 1.1 } }),
    ),
    placements: [0, 1, 2].map((i) => at(`t${i}`, 2000 + 1000 * i)),
    more: { containers: [{ id: "box", name: "box", emptyMassKg: 1, capacityKg, volumeL }] },
  });

export const container: Pairs = [
  // 0.1 + 0.2 is not 0.3 in binary; in grams 100 + 200 + 2700 = 3000.
  {
    breaks: ["3 kg in a box for a gram less", plan(2.999, 9)],
    says: { need: 2.999, have: 3 },
    holds: ["3 kg in a box for 3 kg", plan(3, 9)],
  },
  {
    breaks: ["3.3 L in a box of a millilitre less", plan(9, 3.299)],
    says: { need: 3.299, have: 3.3 },
    holds: ["3.3 L in a box of 3.3 L", plan(9, 3.3)],
  },
];

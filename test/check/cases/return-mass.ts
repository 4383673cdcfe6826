import type { Pairs } from "../pair.ts";
import { at, task, tinyPlan } from "../tinyPlan.ts";

/** Two samples of 1.5 kg in a box of 2 kg: 5 kg go up. A second, empty box stays behind. */
export const plan = (greatestKg: number) =>
  tinyPlan({
    tasks: ["one", "two"].map((id) => task(id, "a", { sample: { container: "box", massKg: 1.5 } })),
    placements: [at("one", 2000), at("two", 3000)],
    rules: { returnMass: { greatestKg } },
    more: {
      containers: ["box", "spare"].map((id) => ({
        id,
        name: id,
        emptyMassKg: 2,
        capacityKg: 100,
        volumeL: 100,
      })),
    },
  });

export const returnMass: Pairs = [
  {
    breaks: ["5 kg, a gram less allowed", plan(4.999)],
    says: { need: 4.999, have: 5 },
    holds: ["5 kg, 5 kg allowed", plan(5)],
  },
];

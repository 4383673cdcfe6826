import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan, type PlacementInput, type TaskInput } from "../tinyPlan.ts";

const crew = [
  { id: "ev1", name: "EV1", bodyMassKg: 80, suit: "suit", qualifications: ["drilling"] },
  { id: "ev2", name: "EV2", bodyMassKg: 70, suit: "suit" },
];

export const plan = (asked: TaskInput["crew"], placement: PlacementInput, ev: string[] = ["ev1", "ev2"]) =>
  tinyPlan({
    crew,
    evas: [eva("eva-1", { crew: ev })],
    tasks: [task("one", asked?.count === 0 ? null : "a", { crew: asked })],
    placements: [placement],
  });

export const taskCrew: Pairs = [
  {
    breaks: ["two asked for, one there", plan({ count: 2 }, at("one", 2000))],
    says: { need: 2, have: 1 },
    holds: ["two asked for, two there", plan({ count: 2 }, at("one", 2000, ["ev1", "ev2"]))],
  },
  {
    breaks: ["one asked for, two there", plan({ count: 1 }, at("one", 2000, ["ev1", "ev2"]))],
    says: { need: 1, have: 2 },
    holds: ["one asked for, one there", plan({ count: 1 }, at("one", 2000))],
  },
  {
    breaks: ["somebody who is not on the EVA", plan({ count: 1 }, at("one", 2000, ["ev2"]), ["ev1"])],
    holds: ["somebody who is", plan({ count: 1 }, at("one", 2000), ["ev1"])],
  },
  {
    breaks: ["the named one is not there", plan({ named: ["ev2"] }, at("one", 2000, ["ev1"]))],
    holds: ["the named one is there", plan({ named: ["ev2"] }, at("one", 2000, ["ev2"]))],
  },
  {
    breaks: ["nobody there is qualified", plan({ qualification: "drilling" }, at("one", 2000, ["ev2"]))],
    holds: [
      "one of two is qualified",
      plan({ count: 2, qualification: "drilling" }, at("one", 2000, ["ev2", "ev1"])),
    ],
  },
  {
    breaks: ["crew at work on no EVA", plan({ count: 1 }, at("one", 2000, ["ev1"], null))],
    holds: ["crew at work on an EVA", plan({ count: 1 }, at("one", 2000))],
  },
  {
    breaks: ["remote work on an EVA", plan({ count: 0 }, at("one", 2000, []))],
    holds: ["remote work on none", plan({ count: 0 }, at("one", 2000, [], null))],
  },
];

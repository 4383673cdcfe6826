import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import type { Placement } from "../../../src/plan/index.ts";
import { differencesOf, grouped } from "../../../src/screens/variants/differences.ts";
import { planOf, smallInput } from "../../session/bench.ts";

const plan = planOf({
  ...smallInput,
  tasks: ["a", "b", "c", "d", "e"].map((id) => ({ ...smallInput.tasks[0]!, id, name: `Task ${id}` })),
  schedule: { placements: [] },
});
const at = (task: string, startS: number, crew = ["ev1"]): Placement => ({
  task,
  eva: "eva-1",
  crew,
  startS: instant(startS),
});

describe("differences of two days", () => {
  it("are dropped, added and moved tasks, in this order, and none for what stays", () => {
    const from = { placements: [at("a", 1000), at("b", 2000), at("c", 3000)] };
    const to = { placements: [at("c", 3000), at("b", 2600), at("d", 500)] };
    const list = differencesOf(plan, from, to);
    expect(list.map(({ task }) => task)).toEqual(["a", "d", "b"]);
    expect(list.map(({ laterS }) => laterS)).toEqual([0, 0, 600]);
  });

  it("see another crew at the same time, but not another order of the same crew", () => {
    const from = { placements: [at("a", 1000, ["ev1"]), at("b", 2000, ["ev1", "ev2"])] };
    const to = { placements: [at("a", 1000, ["ev2"]), at("b", 2000, ["ev2", "ev1"])] };
    expect(differencesOf(plan, from, to).map(({ task }) => task)).toEqual(["a"]);
  });

  it("that move together are one group from three on, those with another crew apart", () => {
    const from = { placements: ["a", "b", "c", "d", "e"].map((task, i) => at(task, 1000 * i)) };
    const to = {
      placements: [at("a", 60), at("b", 1060), at("c", 2060), at("d", 3060, ["ev2"]), at("e", 4120)],
    };
    const groups = grouped(differencesOf(plan, from, to));
    expect(groups.map((group) => group.map(({ task }) => task))).toEqual([["a", "b", "c"], ["d"], ["e"]]);
    const two = grouped(
      differencesOf(
        plan,
        { placements: from.placements.slice(0, 2) },
        { placements: to.placements.slice(0, 2) },
      ),
    );
    expect(two).toHaveLength(2);
  });
});

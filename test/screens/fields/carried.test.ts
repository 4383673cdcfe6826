import { describe, expect, it } from "vitest";
import type { Field } from "../../../src/screens/fields/table.ts";
import { CARRIED } from "../../../src/screens/fields/task/carried.ts";
import type { Plan, Task } from "../../../src/plan/index.ts";
import { planOf, taskOf } from "../../exchange/samplePlan.ts";

const plan = planOf([taskOf("dig"), taskOf("look", { kind: "survey" })], []);
const [dig, look] = plan.tasks as [Task, Task];
const container: Field<Task> = CARRIED.container;
const mass: Field<Task> = CARRIED.sampleMass;
const volume: Field<Task> = CARRIED.sampleVolume;

/** What stands in the field of a task. */
const shown = (field: Field<Task>, row: Task): string =>
  (field.entryFor?.(row, plan) ?? field.entry).show(field.read?.(row, plan), plan);
const choices = (row: Task, of: Plan = plan) =>
  container.entryFor!(row, of).choices!(of).map(({ value, words }) => ({ value, words }));
const chosen = (row: Task, words: string): Task =>
  container.write!(row, choices(row).find((one) => one.words === words)!.value, plan);

describe("the fields of what is brought back", () => {
  it("tell nothing, which somebody has said, from what nobody has given", () => {
    expect([shown(container, dig), shown(mass, dig)]).toEqual(["not given", ""]);
    const nothing = chosen(dig, "nothing");
    expect(nothing).toMatchObject({ bringsNothing: true });
    expect([shown(container, nothing), shown(mass, nothing)]).toEqual(["nothing", "0"]);
    expect(container.write!(nothing, undefined, plan)).not.toHaveProperty("bringsNothing");
    // Work of another kind brings nothing back unless it has a sample.
    expect(shown(container, look)).toBe("nothing");
  });

  it("show no number for a sample that was only given its container, and take 0 kg for nothing", () => {
    const [box] = plan.containers;
    const open = chosen(dig, box!.name);
    expect([shown(container, open), shown(mass, open), shown(volume, open)]).toEqual([box!.name, "", ""]);
    const given = mass.write!(open, 1.5, plan);
    expect([given.sample?.massKg, shown(mass, given)]).toEqual([1.5, "1.5"]);
    const none = mass.write!(given, 0, plan);
    expect(none).toMatchObject({ bringsNothing: true });
    expect(none).not.toHaveProperty("sample");
    // A container again: what goes into it is to be given anew.
    expect(chosen(none, box!.name)).not.toHaveProperty("bringsNothing");
  });
});

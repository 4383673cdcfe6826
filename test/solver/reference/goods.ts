import type { Term } from "./flat.ts";
import type { Frame } from "./model.ts";

/** equipment, container, return-mass */
export function goods(frame: Frame): void {
  frame.plan.equipment.forEach((_, tool) => equipment(frame, tool));
  samples(frame);
}

/** What is in use is most where some use begins. */
function equipment({ model, plan, done, startS }: Frame, tool: number): void {
  const { id, count } = plan.equipment[tool]!;
  const users = plan.tasks.flatMap((task, i) => {
    const uses = task.equipment
      .filter((one) => one.equipment === id)
      .reduce((sum, one) => sum + one.count, 0);
    return uses > 0 ? [{ i, uses, lastsS: task.duration.likelyS }] : [];
  });
  for (const { i, uses } of users) {
    const besides = users.flatMap((other): Term[] => {
      if (other.i === i) return [];
      const meets = model.bit();
      const begun = model.whetherAtMost(
        [
          [1, startS[other.i]!],
          [-1, startS[i]!],
        ],
        0,
      );
      const going = model.whetherAtMost(
        [
          [1, startS[i]!],
          [-1, startS[other.i]!],
        ],
        other.lastsS - 1,
      );
      model.clause([meets], [done[other.i]!, begun, going]);
      return [[other.uses, meets]];
    });
    model.atMost(besides, count - uses, [done[i]!]);
  }
}

/** Grams and millilitres: loads rounded up, capacities down. */
function samples({ model, plan, done }: Frame): void {
  const up = (value: number): number => Math.ceil(value * 1000 - 1e-6);
  const down = (value: number): number => Math.floor(value * 1000 + 1e-6);
  const lifted: Term[] = [];
  for (const box of plan.containers) {
    const inside = plan.tasks.flatMap(({ sample }, i) =>
      sample?.container === box.id ? [{ bit: done[i]!, sample }] : [],
    );
    const holdsOne = model.bit();
    for (const { bit } of inside) model.clause([holdsOne], [bit]);
    const grams = inside.map(({ bit, sample }): Term => [up(sample.massKg), bit]);
    model.atMost(grams, down(box.capacityKg));
    model.atMost(
      inside.map(({ bit, sample }): Term => [up(sample.volumeL), bit]),
      down(box.volumeL),
    );
    lifted.push(...grams, [up(box.emptyMassKg), holdsOne]);
  }
  model.atMost(lifted, down(plan.rules.returnMass.greatestKg));
}

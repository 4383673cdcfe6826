import type { Plan } from "../../plan/index.ts";
import { firstsOf } from "./firsts.ts";

/** What each activity stands on: a slot for each of its crew and each unit of equipment that can run short. */
export interface Slots {
  /** By activity: equipment of each slot, -1 for a crew slot; crew slots before units. */
  readonly of: readonly (readonly number[])[];
  /** First unit of each equipment among the chains; one more entry than equipment. */
  readonly chainStart: Int32Array;
  /** Equipment of each chain. */
  readonly equipmentOfChain: Int32Array;
}

/** The slots of all activities of a plan. */
export function slotsOf(plan: Plan): Slots {
  const scarce = scarceEquipment(plan);
  const units = plan.equipment.map((one, q) =>
    Array.from({ length: scarce.has(one.id) ? one.count : 0 }, () => q),
  );
  return {
    of: plan.tasks.map((task) => [
      ...Array.from({ length: task.crew.count }, () => -1),
      ...(task.duration.likelyS > 0
        ? task.equipment.flatMap((use) => {
            const q = scarce.get(use.equipment);
            return q === undefined ? [] : Array.from({ length: use.count }, () => q);
          })
        : []),
    ]),
    chainStart: firstsOf(units),
    equipmentOfChain: Int32Array.from(units.flat()),
  };
}

/** Equipment that all its users together could ask too much of; the rest never binds and gets no chains. */
function scarceEquipment(plan: Plan): Map<string, number> {
  const needed = new Map<string, number>();
  for (const task of plan.tasks)
    for (const use of task.equipment) needed.set(use.equipment, (needed.get(use.equipment) ?? 0) + use.count);
  return new Map(
    plan.equipment.flatMap((one, q) => ((needed.get(one.id) ?? 0) > one.count ? [[one.id, q] as const] : [])),
  );
}

/** False when a task asks for more of an equipment than there is. */
export function feasibleCounts(plan: Plan, slots: readonly number[]): boolean {
  return plan.equipment.every((one, q) => slots.filter((slot) => slot === q).length <= one.count);
}

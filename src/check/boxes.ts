import type { Container } from "../plan/index.ts";
import { loadThousandths } from "./amounts.ts";
import type { Walkthrough } from "./walkthrough.ts";

/** A container with the samples of all placed tasks: whole grams and millilitres. */
export interface Box {
  readonly container: Container;
  readonly emptyG: number;
  readonly sampleG: number;
  readonly sampleMl: number;
}

/** Every container that holds a sample, in the plan's order. */
export function boxesIn({ prepared, placed }: Pick<Walkthrough, "prepared" | "placed">): Box[] {
  const loads = new Map<string, { sampleG: number; sampleMl: number }>();
  for (const { task } of placed) {
    if (!task.sample) continue;
    const load = loads.get(task.sample.container) ?? { sampleG: 0, sampleMl: 0 };
    load.sampleG += loadThousandths(task.sample.massKg);
    load.sampleMl += loadThousandths(task.sample.volumeL);
    loads.set(task.sample.container, load);
  }
  return prepared.plan.containers.flatMap((container) => {
    const load = loads.get(container.id);
    return load ? [{ container, emptyG: loadThousandths(container.emptyMassKg), ...load }] : [];
  });
}

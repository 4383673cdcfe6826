import type { Plan } from "../../plan/index.ts";
import type { Loads } from "./problem.ts";

/** Thousandths of a load, rounded up, and of a capacity, rounded down; the noise of a decimal is not a gram. */
const up = (value: number): number => Math.ceil(value * 1000 - 1e-6);
const down = (value: number): number => Math.floor(value * 1000 + 1e-6);

/** Samples and containers in grams and millilitres (container, return-mass). */
export function loadsOf(plan: Plan): Loads {
  const index = new Map(plan.containers.map((container, i) => [container.id, i]));
  const samples = plan.tasks.map((task) => task.sample);
  return {
    container: Int32Array.from(samples, (sample) => (sample ? index.get(sample.container)! : -1)),
    grams: Float64Array.from(samples, (sample) => (sample ? up(sample.massKg) : 0)),
    millilitres: Float64Array.from(samples, (sample) => (sample ? up(sample.volumeL) : 0)),
    emptyGrams: Float64Array.from(plan.containers, (container) => up(container.emptyMassKg)),
    holdsGrams: Float64Array.from(plan.containers, (container) => down(container.capacityKg)),
    holdsMillilitres: Float64Array.from(plan.containers, (container) => down(container.volumeL)),
    returnGrams: plan.rules.returnMass.level === "breach" ? down(plan.rules.returnMass.greatestKg) : Infinity,
  };
}

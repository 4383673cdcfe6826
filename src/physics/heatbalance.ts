import { coolingWaterKgS } from "./cooling.ts";

/**
 * What becomes of a suit's heat: carried off by feed water, and stored in the body where cooling is not enough.
 *
 * Load: metabolic + electrical + absorbent + environment, W. The body's work on the outside is left in the load (a
 * few percent, to the safe side). Cooling takes all of it up to its capacity. Range: steady work of minutes and
 * longer. Not covered: comfort, how quickly a body gives up heat, cooling lost at start-up.
 */
export interface HeatLoad {
  readonly metabolicW: number;
  readonly electricalW: number;
  readonly absorbentW: number;
  /** From the surroundings; may be negative. */
  readonly environmentW: number;
}

/** Where the heat goes. */
export interface HeatBalance {
  readonly loadW: number;
  /** Carried off, at most the capacity; none where the load is below zero. */
  readonly cooledW: number;
  /** Into the body; negative where it loses heat. */
  readonly storedW: number;
  readonly waterKgS: number;
}

/** Heat in W freed by an absorbent that takes up `co2KgS` at `absorbentKjKg`. */
export function absorbentHeatW(co2KgS: number, absorbentKjKg: number): number {
  return co2KgS * absorbentKjKg * 1000;
}

/** All heat together, W. */
export function heatLoadW({ metabolicW, electricalW, absorbentW, environmentW }: HeatLoad): number {
  return metabolicW + electricalW + environmentW + absorbentW;
}

/** The balance of `load` with cooling of at most `capacityW`, each kg of feed water carrying off `coolingKjKg`. */
export function heatBalance(load: HeatLoad, capacityW: number, coolingKjKg: number): HeatBalance {
  const loadW = heatLoadW(load);
  const cooledW = Math.max(0, Math.min(loadW, capacityW));
  return { loadW, cooledW, storedW: loadW - cooledW, waterKgS: coolingWaterKgS(cooledW, coolingKjKg) };
}

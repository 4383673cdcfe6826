/**
 * The heat of a suit, which feed water carries off (cooling.ts) and the body stores where that is not enough (heatstore.ts).
 *
 * Load: metabolic + electrical + absorbent + environment, W. The body's work on the outside is left in the load (a
 * few percent, to the safe side). Range: steady work of minutes and longer. Not covered: comfort, how quickly a body
 * gives up heat, cooling lost at start-up.
 */
export interface HeatLoad {
  readonly metabolicW: number;
  readonly electricalW: number;
  readonly absorbentW: number;
  /** From the surroundings; may be negative. */
  readonly environmentW: number;
}

/** Heat in W freed by an absorbent that takes up `co2KgS` at `absorbentKjKg`. */
export function absorbentHeatW(co2KgS: number, absorbentKjKg: number): number {
  return co2KgS * absorbentKjKg * 1000;
}

/** All heat together, W. */
export function heatLoadW({ metabolicW, electricalW, absorbentW, environmentW }: HeatLoad): number {
  return metabolicW + electricalW + environmentW + absorbentW;
}

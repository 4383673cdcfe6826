/**
 * Battery energy by mode of use: each mode draws its power as long as it lasts.
 *
 * Formula: `sum of power times time / 3600`, Wh. Range: steady loads at the battery's rated drain and temperature.
 * Not covered: cold, ageing, self-discharge, and losses, which the usable stock must leave out already.
 */
export interface PowerMode {
  readonly name: string;
  readonly powerW: number;
  readonly seconds: number;
}

/** Wh that all modes draw together. */
export function batteryWh(modes: readonly PowerMode[]): number {
  return modes.reduce((sum, mode) => sum + mode.powerW * mode.seconds, 0) / 3600;
}

/** Whole seconds that `leftWh` lasts at `powerW`, rounded down; infinite at no power. */
export function batteryS(leftWh: number, powerW: number): number {
  return powerW <= 0 ? Infinity : Math.max(0, Math.floor((leftWh * 3600) / powerW));
}

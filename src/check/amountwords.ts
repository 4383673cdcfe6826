import type { Unit } from "../answers/index.ts";
import { amount, lasting, metres, type Rounding } from "./phrases.ts";

/** An amount in the unit of a finding, as a flight planner reads it: `4 min`, `120 m`, `0.120 kg`. Never negative. */
export function amountWords(value: number, unit: Unit, rounding: Rounding): string {
  switch (unit) {
    case "s":
      return lasting(whole(value, 1, rounding), rounding);
    case "m":
      return metres(value, rounding);
    case "kg":
    case "Wh":
      return amount(value, unit, rounding);
    case "kJ":
    case "L":
    case "deg":
    case "m/s":
      return `${whole(value, 100, rounding)} ${unit}`;
    case "count":
    case "none":
      return String(whole(value, 1, rounding));
  }
}

function whole(value: number, scale: number, rounding: Rounding): number {
  // A millionth of the last digit absorbs the noise of the scaling itself.
  const scaled = rounding === "down" ? Math.floor(value * scale + 1e-6) : Math.ceil(value * scale - 1e-6);
  return scaled / scale;
}

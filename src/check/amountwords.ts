import type { Unit } from "../rules/index.ts";
import { angle, metres, heat, lasting, rounded, stock, volume } from "../words/index.ts";

/** An amount in the unit of a finding, as a flight planner reads it: `4 min`, `120 m`, `0.120 kg`. Never negative. */
export function amountWords(value: number, unit: Unit, side: "up" | "down"): string {
  switch (unit) {
    case "s":
      return lasting(value, side);
    case "m":
      return metres(value, side);
    case "kg":
    case "Wh":
      return stock(value, unit, side);
    case "kJ":
      return heat(value, side);
    case "L":
      return volume(value, side);
    case "deg":
      return angle(value, side);
    case "m/s":
      return `${rounded(value, 2, side)} m/s`;
    case "count":
    case "none":
      return rounded(value, 0, side);
  }
}

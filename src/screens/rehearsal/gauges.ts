import type { MarginTrack } from "../../answers/index.ts";

type Consumable = MarginTrack["consumable"];

/** The unit that a gauge shows. */
export function unitOf(consumable: Consumable): "kg" | "Wh" {
  return consumable === "battery" ? "Wh" : "kg";
}

/** An amount as a gauge would show it, in grams or whole watt-hours; `round` says to which side. */
export function gaugeFigure(value: number, consumable: Consumable, round: (value: number) => number): string {
  const digits = consumable === "battery" ? 0 : 3;
  return (round(value * 10 ** digits) / 10 ** digits).toFixed(digits);
}

import type { MarginTrack } from "../../answers/index.ts";
import { fixed } from "../../words/index.ts";

type Consumable = MarginTrack["consumable"];

/** The unit that a gauge shows. */
export function unitOf(consumable: Consumable): "kg" | "Wh" {
  return consumable === "battery" ? "Wh" : "kg";
}

/** An amount as a gauge would show it, in grams or whole watt-hours. */
export function gaugeFigure(value: number, consumable: Consumable, side: "up" | "down"): string {
  return fixed(value, consumable === "battery" ? 0 : 3, side);
}

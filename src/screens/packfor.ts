import { percent } from "../words/index.ts";
import type { ViewState } from "./viewstate.ts";
import type { PackOptions } from "../session/index.ts";

/** Places along the curve that a pack can be for: from likely durations over ever surer must-do work to the surest that is searched for. None is certain. */
export type PackFor = ViewState["packFor"];

const SURE = [0.5, 0.8, 0.9, 0.95, 0.99];

/** All places in their order, the plan's wish among them. */
export function alongCurve(wish: number): readonly PackFor[] {
  return ["likely", ...SURE.filter((one) => one < wish), "wish", ...SURE.filter((one) => one > wish)];
}

/** A place as it is written on the dial. */
export function placeWords(place: PackFor, wish: number): string {
  if (place === "likely") return "likely";
  if (place === "wish") return `wish ${percent(wish, "given")}`;
  return place === SURE.at(-1) ? `surest ${percent(place, "given")}` : percent(place, "given");
}

/** A place from the value of its option. */
export function packForOf(value: string): PackFor {
  return value === "likely" || value === "wish" ? value : Number(value);
}

/** What the packer is asked for at a place. */
export function aimOf(place: PackFor): Pick<PackOptions, "aim" | "must"> {
  if (place === "likely" || place === "wish") return { aim: place };
  return { aim: "wish", must: place };
}

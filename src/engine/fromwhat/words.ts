import type { Stretch } from "../../answers/index.ts";
import type { Consumable } from "../../physics/index.ts";
import type { Plan } from "../../plan/index.ts";

/** Numbers and names in the words of a ledger. */

/** Whole units in a unit that people read, that unit, and the unit of a draw. */
export const UNITS: Readonly<
  Record<Consumable, { readonly per: number; readonly unit: string; readonly rateUnit: string }>
> = {
  oxygen: { per: 1e9, unit: "kg", rateUnit: "µg/s" },
  co2: { per: 1e9, unit: "kg", rateUnit: "µg/s" },
  water: { per: 1e9, unit: "kg", rateUnit: "µg/s" },
  battery: { per: 3_600_000, unit: "Wh", rateUnit: "mW" },
};

/** `1:05:30`, always with seconds, so that lines can be added up. */
export function hms(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${seconds < 0 ? "−" : ""}${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

/** A number to six figures, without a tail of zeros. */
export function plain(value: number): string {
  return String(Number(value.toPrecision(6))).replace("-", "−");
}

/** What somebody does in a stretch: a task's name, or the way with its ends. */
export function stretchName(plan: Plan, { kind, task, path }: Stretch): string {
  const place = (id: string | undefined): string =>
    plan.site.places.find((one) => one.id === id)?.name ?? id ?? "";
  switch (kind) {
    case "task":
      return plan.tasks.find((one) => one.id === task)?.name ?? task ?? "";
    case "traverse":
      return `${place(path[0])} to ${place(path.at(-1))}`;
    case "wait":
      return `Waits, ${place(path[0])}`;
    case "egress":
      return "Egress work";
    case "ingress":
      return "Ingress work";
  }
}

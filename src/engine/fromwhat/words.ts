import type { Stretch } from "../../answers/index.ts";
import type { Consumable } from "../../physics/index.ts";
import type { Plan } from "../../plan/index.ts";
import { placeName, taskName } from "../../words/index.ts";

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

/** What somebody does in a stretch: a task's name, or the way with its ends. */
export function stretchName(plan: Plan, { kind, task, path }: Stretch): string {
  const place = (id: string | undefined): string => (id === undefined ? "" : placeName(plan, id));
  switch (kind) {
    case "task":
      return task === null ? "" : taskName(plan, task);
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

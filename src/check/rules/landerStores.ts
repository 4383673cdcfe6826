import { stocks } from "../../physics/index.ts";
import { counted, listed, stock } from "../../words/index.ts";
import { readable } from "../amounts.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import type { CrewOuting } from "../crewouting.ts";
import { closeBelow } from "../thresholds.ts";

const STORED = [
  { consumable: "oxygen", called: "oxygen", unit: "kg" },
  { consumable: "water", called: "water", unit: "kg" },
  { consumable: "battery", called: "energy", unit: "Wh" },
] as const;

/**
 * lander-stores: what recharges before later EVAs in the same suit draw (oxygen, water, energy as consumed on the earlier EVA, one
 * absorbent change each) is in the stores.
 */
export const landerStores: JudgeRule = ({ prepared, crewOutingsIn }) => {
  const { stores } = prepared.plan;
  const recharged = [...crewOutingsIn.values()].flatMap((crewOutings) => crewOutings.slice(0, -1));
  if (recharged.length === 0) return [];
  const full = storesOf(stores);
  const lines = STORED.map(({ consumable, called, unit }) => {
    const drawn = recharged.reduce((sum, crewOuting) => sum + consumed(crewOuting, consumable), 0);
    const need = readable(consumable, drawn);
    const have = readable(consumable, full[consumable]);
    return {
      ...level(drawn, full[consumable]),
      of: called as string,
      need,
      have,
      unit: unit as "kg" | "Wh" | "count",
      says: `${stock(need, unit, "up")} of ${called} and hold ${stock(have, unit, "down")}`,
    };
  });
  const changes = recharged.length;
  lines.push({
    ...level(changes, stores.absorbentChanges),
    of: "absorbent",
    need: changes,
    have: stores.absorbentChanges,
    unit: "count",
    says: `${counted(changes, "absorbent change")} and hold ${stores.absorbentChanges}`,
  });
  const over = lines.filter((line) => line.over);
  const reported = over.length > 0 ? over : lines.filter((line) => line.near);
  const first = reported[0];
  if (!first) return [];
  const crew = [...new Set(recharged.map((crewOuting) => crewOuting.outing.crew))].sort();
  return [
    finding(
      "lander-stores",
      over.length > 0 ? "breach" : "tight",
      crew.map((id) => about("crew", id)),
      {
        need: first.need,
        have: first.have,
        unit: first.unit,
        parts: reported.map(({ of, need, have, unit }) => ({ of, sense: "least", need, have, unit })),
        sentence: `Recharges draw on the lander's stores for ${listed(reported.map((line) => line.says))}.`,
      },
    ),
  ];
};

function level(drawn: number, stock: number): { readonly over: boolean; readonly near: boolean } {
  return { over: drawn > stock, near: closeBelow(drawn, stock) };
}

function consumed(crewOuting: CrewOuting, consumable: "oxygen" | "water" | "battery"): number {
  return crewOuting.walker.full[consumable] - crewOuting.left.at(-1)![consumable];
}

/** The stores in the whole units of suits, rounded down by the same rule. */
function storesOf(stores: {
  oxygenKg: number;
  waterKg: number;
  batteryWh: number;
}): ReturnType<typeof stocks> {
  return stocks({
    oxygenKg: stores.oxygenKg,
    co2Kg: 0,
    waterKg: stores.waterKg,
    batteryWh: stores.batteryWh,
    leakKgH: 0,
    electricalW: 0,
    environmentW: 0,
    respiratoryQuotient: 1,
    coolingKjKg: 1,
    absorbentKjKg: 0,
  });
}

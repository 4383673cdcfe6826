import { readFileSync } from "node:fs";
import { basename } from "node:path";
import type { Plan } from "../../src/plan/index.ts";
import { flatDay, numberRows, placeAt } from "./flatday.ts";

/** Columns of a point: number, x, y, visit, score, four window borders and the last close, which windows, fee, ten types. */
const X = 1;
const Y = 2;
const VISIT = 3;
const SCORE = 4;
const WINDOWS = 5;
const PARITY = 10;
const FEE = 11;
const TYPES = 12;
const TYPE_COUNT = 10;
/** A gram for a unit of entrance fee: masses are counted in whole grams (D7). */
const FEE_KG = 0.001;

/**
 * A multi-constraint team-orienteering instance with several time windows (Souffriau, Vansteenwegen, Vanden Berghe & Van Oudheusden 2013,
 * Transp Sci 47:53) as a plan. A crew member for each tour. A point is a task for who goes on odd tours and one for who goes on even ones, told
 * apart by a qualification, of which at most one is done; each has the two windows in which it may begin there. Fees are the mass of a sample
 * for one container that holds the budget; the most points of a type are a group.
 *
 * Distances and times as in toptw.plan.
 */
export function mctopmtwPlan(path: string): Plan {
  const [head, depot, ...points] = numberRows(readFileSync(path, "latin1"));
  if (!head || !depot) throw new Error(`${path}: no instance`);
  const [tours = 0, , budget = 0, ...most] = head;
  const unit = basename(path).includes("-pr") ? 100 : 10;
  const whole = (value: number): number => Math.round(value * unit);
  const sides = tours > 1 ? SIDES : SIDES.slice(0, 1);
  const visits = points.flatMap((row, i) => sides.map((side) => ({ row, i, side, id: `t${i + 1}-${side}` })));
  return flatDay({
    title: basename(path),
    points: [depot, ...points].map((row) => ({ x: row[X]!, y: row[Y]! })),
    unit,
    limitS: whole(depot.at(-1)!),
    crew: Array.from({ length: tours }, (_, k) => ({ id: `c${k + 1}`, qualifications: [SIDES[k % 2]!] })),
    tasks: visits.map(({ row, i, side, id }) => ({
      id,
      name: id,
      kind: "survey",
      place: placeAt(i + 1),
      duration: { likelyS: whole(row[VISIT]!) },
      worth: row[SCORE]!,
      crew: { count: 1, qualification: side },
      windows: (row[PARITY] === (side === "odd" ? 1 : 0) ? [0, 2] : [1, 3]).map((k) => ({
        startS: whole(row[WINDOWS + k]!),
        endS: whole(row[WINDOWS + k + 1]!) + whole(row[VISIT]!),
      })),
      ...(row[FEE]! > 0 ? { sample: { container: "budget", massKg: row[FEE]! * FEE_KG } } : {}),
    })),
    groups: [
      ...Array.from({ length: TYPE_COUNT }, (_, z) => ({
        id: `type-${z + 1}`,
        name: `type ${z + 1}`,
        tasks: visits.filter(({ row }) => row[TYPES + z] === 1).map(({ id }) => id),
        most: most[z]!,
      })),
      ...(sides.length > 1
        ? points.map((_, i) => ({
            id: `point-${i + 1}`,
            name: `point ${i + 1}`,
            tasks: sides.map((side) => `t${i + 1}-${side}`),
            most: 1,
          }))
        : []),
    ],
    containers: [
      { id: "budget", name: "budget", emptyMassKg: 0, capacityKg: budget * FEE_KG, volumeL: 1000 },
    ],
  });
}

const SIDES = ["odd", "even"];

import { readFileSync } from "node:fs";
import { basename } from "node:path";
import type { Plan } from "../../src/plan/index.ts";
import { flatDay, numberRows, placeAt } from "./flatday.ts";

/**
 * A team-orienteering instance with time windows (Vansteenwegen et al. 2009, Comput Oper Res 36:3281) as a plan: `m` crew
 * members on one EVA, optional one-person tasks with one window each, worth, flat travel given as legs.
 *
 * Distances are Euclidean, cut to one decimal, in the pr family to two; one second of the plan is that last decimal.
 * The route's limit is the closing time of the depot. A window bounds the start, so the plan's ends later by the visit.
 */
export function toptwPlan(path: string, crew: number): Plan {
  const lines = numberRows(readFileSync(path, "latin1"));
  const count = lines[0]![2]!;
  const vertices = lines.slice(2, count + 3);
  const unit = basename(path).startsWith("pr") ? 100 : 10;
  const whole = (value: number): number => Math.round(value * unit);
  const opens = (row: readonly number[]): number => whole(row.at(-2)!);
  const closes = (row: readonly number[]): number => whole(row.at(-1)!);
  return flatDay({
    title: basename(path),
    points: vertices.map((row) => ({ x: row[1]!, y: row[2]! })),
    unit,
    limitS: closes(vertices[0]!),
    crew: Array.from({ length: crew }, (_, k) => ({ id: `c${k + 1}` })),
    tasks: vertices.slice(1).map((row, i) => ({
      id: `t${i + 1}`,
      name: `t${i + 1}`,
      kind: "survey",
      place: placeAt(i + 1),
      duration: { likelyS: whole(row[3]!) },
      worth: row[4]!,
      windows: [{ startS: opens(row), endS: closes(row) + whole(row[3]!) || 1 }],
    })),
  });
}

import type { FromAnswer, ReachTrack } from "../../answers/index.ts";
import { check } from "../../check/index.ts";
import { CONSUMABLES, slopeW } from "../../physics/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { bare, clockToSecond } from "../../words/index.ts";
import { explainRing, limitsOf } from "../sitefrom.ts";

type Points = readonly { readonly atS: number; readonly value: number }[];

/**
 * From what the walk-back comes that `crew` on `eva` needs and is allowed at `atS`, or at the moment with the least to spare
 * (null): emergency oxygen, and what every consumable above its reserve still carries. Null where they are not out.
 */
export function fromWalkback(
  plan: Plan,
  schedule: Schedule,
  eva: string,
  crew: string,
  atS: number | null,
): FromAnswer | null {
  const verdict = check(plan, schedule);
  const reach = verdict.reach.find((one) => one.eva === eva && one.crew === crew);
  if (!reach || reach.points.length === 0) return null;
  const moments = [...reach.points, ...reach.allowed].map((point) => point.atS as number);
  const spare = (at: number): number => valueAt(reach.allowed, at, "down") - valueAt(reach.points, at, "up");
  const when = atS ?? moments.reduce((least, at) => (spare(at) < spare(least) ? at : least), moments[0]!);
  const amounts = Object.fromEntries(
    CONSUMABLES.map((consumable) => {
      const track = verdict.margins.find(
        (one) => one.eva === eva && one.crew === crew && one.consumable === consumable,
      );
      return [consumable, track ? valueAt(track.points, when, "down") : 0];
    }),
  ) as Record<(typeof CONSUMABLES)[number], number>;
  const limits = limitsOf(plan, [{ eva, crew, amounts }], slopeNear(reach, when)).filter(
    (one) => one.kind !== "shared" && one.crew.includes(crew),
  );
  const needS = Math.ceil(valueAt(reach.points, when, "up"));
  const allowedS = Math.min(...limits.map((one) => one.seconds));
  return {
    figures: [
      {
        of: `to spare at ${clockToSecond(when)} MET`,
        value: allowedS - needS,
        unit: "s",
        formula: "allowed - needed",
        inputs: [
          { name: "allowed", value: allowedS, unit: "s: the least of the limits below" },
          { name: "needed", value: needS, unit: "s back to the lander by the quickest way, rounded up" },
        ],
        source: "reach: be able to walk back at any time, published in prose",
      },
      ...limits.flatMap((limit) => explainRing(plan, limit)),
    ],
    sums: {
      caption: "Walk-back over the EVA",
      head: ["At MET", "needed, h:mm:ss", "allowed, h:mm:ss", "to spare, s"],
      rows: reach.points.map(({ atS: at, value }) => {
        const most = valueAt(reach.allowed, at, "down");
        return [
          clockToSecond(at),
          clockToSecond(Math.ceil(value)),
          clockToSecond(Math.floor(most)),
          bare(Math.floor(most - value), 6),
        ];
      }),
    },
  };
}

/** The hardest slope angle of the walk-backs marked at a moment or, between two marks, of both. */
function slopeNear({ points, slopesRad }: ReachTrack, atS: number): number {
  const before = points.findLast((point) => point.atS <= atS)?.atS ?? atS;
  const after = points.find((point) => point.atS >= atS)?.atS ?? atS;
  return slopesRad
    .filter((_, k) => points[k]!.atS >= before && points[k]!.atS <= after)
    .reduce((most, one) => (slopeW(1, 1, 1, one) > slopeW(1, 1, 1, most) ? one : most), 0);
}

/** A course at a moment; where it jumps the higher value (up) or the lower one (down). Beyond its ends the end's. */
function valueAt(points: Points, atS: number, side: "up" | "down"): number {
  const pick = side === "up" ? Math.max : Math.min;
  const here = points.filter((point) => point.atS === atS);
  if (here.length > 0) return pick(...here.map((point) => point.value));
  const after = points.findIndex((point) => point.atS > atS);
  if (after < 0) return points.at(-1)!.value;
  if (after === 0) return points[0]!.value;
  const [a, b] = [points[after - 1]!, points[after]!];
  return a.value + ((b.value - a.value) * (atS - a.atS)) / (b.atS - a.atS);
}

import { type Plan, STOCK_FIELDS, type Suit, suitIdOn } from "../plan/index.ts";
import type { Reading } from "./call.ts";

type Consumable = Reading["consumable"];

/** What is left of a consumable over time, as it is worked out. */
export interface LevelTrack {
  readonly eva: string;
  readonly crew: string;
  readonly consumable: Consumable;
  readonly points: readonly { readonly atS: number; readonly value: number }[];
}

/** A reading beside what was worked out for its moment, or before the first egress for that; null where it is neither. */
export interface ReadOut {
  readonly reading: Reading;
  readonly eva: string | null;
  readonly expected: number | null;
  /** What there is at the most: as read, or as the same gauge read less before, since nothing outside fills a suit. */
  readonly most: number;
}

/**
 * Every reading that stands beside the level that the tracks have at its moment. The last one of a gauge at a moment is what it reads: it corrects
 * any before it. Who has not been out yet goes out with what was read last; what is read between two EVAs is not held against the next, since
 * suits are recharged there.
 */
export function readOuts(readings: readonly Reading[], tracks: readonly LevelTrack[]): readonly ReadOut[] {
  const least = new Map<string, number>();
  return readings.filter(isNotCorrected).map((reading) => {
    const own = tracks.filter(
      (one) => one.crew === reading.crew && one.consumable === reading.consumable && one.points.length > 0,
    );
    const at = own.find(({ points }) => reading.atS >= points[0]!.atS && reading.atS <= points.at(-1)!.atS);
    const track = at ?? goingOut(own, reading.atS);
    if (!track) return { reading, eva: null, expected: null, most: reading.left };
    const gauge = `${track.eva} ${reading.crew} ${reading.consumable}`;
    // Inside a suit can be filled up.
    const before = at ? (least.get(gauge) ?? Infinity) : Infinity;
    const most = Math.min(reading.left, before);
    least.set(gauge, most);
    return { reading, eva: track.eva, expected: levelAt(track, reading.atS), most };
  });
}

function isNotCorrected(reading: Reading, k: number, readings: readonly Reading[]): boolean {
  return !readings
    .slice(k + 1)
    .some(
      ({ atS, crew, consumable }) =>
        atS === reading.atS && crew === reading.crew && consumable === reading.consumable,
    );
}

/** The first of somebody's outings, where they have not been out at `atS`. */
function goingOut(own: readonly LevelTrack[], atS: number): LevelTrack | undefined {
  const [first] = own.toSorted((a, b) => a.points[0]!.atS - b.points[0]!.atS);
  return first && atS < first.points[0]!.atS ? first : undefined;
}

function levelAt({ points }: LevelTrack, atS: number): number {
  if (atS <= points[0]!.atS) return points[0]!.value;
  const after = points.findIndex((point) => point.atS >= atS);
  const b = points[after]!;
  const a = points[Math.max(0, after - 1)]!;
  return a.atS === b.atS ? b.value : a.value + ((atS - a.atS) / (b.atS - a.atS)) * (b.value - a.value);
}

/**
 * The plan with stocks as they were read out, where the last reading of a suit by a wearer shows less than was worked out: the suit
 * then holds so much less, and what must be left stays as much as it was. A reading that shows more changes nothing, since a margin
 * is not made better by one look at a gauge, and one that shows more than before counts as it did before. Other EVAs in that suit are held to the smaller stock as well, whoever wears it there.
 */
export function withReadings(plan: Plan, reads: readonly ReadOut[]): Plan {
  const last = new Map<
    string,
    { readonly suit: string; readonly reading: Reading; readonly lacks: number }
  >();
  for (const { reading, eva, expected, most } of reads) {
    const outing = plan.evas.find((one) => one.id === eva);
    const suit = outing ? suitIdOn(plan, outing, reading.crew) : null;
    if (suit === null || expected === null) continue;
    const lacks = expected - most;
    last.set(`${suit} ${reading.crew} ${reading.consumable}`, { suit, reading, lacks });
  }
  const missing = [...last.values()].filter(({ lacks }) => lacks > 0);
  if (missing.length === 0) return plan;
  const suits = plan.suits.map((suit) => {
    const most = new Map<Consumable, number>();
    for (const { reading, lacks } of missing.filter((one) => one.suit === suit.id)) {
      most.set(reading.consumable, Math.max(lacks, most.get(reading.consumable) ?? 0));
    }
    return [...most].reduce((worn, [consumable, lacks]) => lessBy(worn, consumable, lacks), suit);
  });
  return { ...plan, suits };
}

function lessBy(suit: Suit, consumable: Consumable, missing: number): Suit {
  const key = STOCK_FIELDS[consumable];
  const kept = suit.reserve[consumable] * suit[key];
  const stock = Math.max(0, suit[key] - missing);
  const reserve = stock > 0 ? Math.min(1, kept / stock) : 1;
  return { ...suit, [key]: stock, reserve: { ...suit.reserve, [consumable]: reserve } };
}

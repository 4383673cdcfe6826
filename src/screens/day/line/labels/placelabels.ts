import type { Box } from "../names/place.ts";

/**
 * Where the words of the hand stand while something is in hand: each beside an upright line of its own that runs through the lane, so
 * that any row of the sky will do. Never on each other; on the ribbon, on what is in hand and on what is written there only where
 * there is nothing else; and on as few names as can be, which are then not painted. All in pixels of one lane, as in `names/place.ts`.
 */

/** Words of the hand that ask for a row. */
export interface LabelToPlace {
  readonly key: string;
  readonly text: string;
  readonly widthPx: number;
  /** The column of its line, and on which side of it the words stand where both have room. */
  readonly x: number;
  readonly side: "before" | "after";
  /** The lanes that its line runs through, the better ones first. */
  readonly lanes: readonly string[];
}

/** The sky of a lane while something is in hand. */
export interface LabelSky {
  readonly lane: string;
  /** Middles of the rows, from home outwards. */
  readonly rows: readonly number[];
  /** How far out the ribbon reaches in each column. */
  readonly ribbon: ArrayLike<number>;
  /** What is in hand. */
  readonly inHand: readonly Box[];
  /** What is written there besides names. */
  readonly taken: readonly Box[];
  /** The names. */
  readonly names: readonly Box[];
  readonly widthPx: number;
}

/** Words with their place: their box reaches half its height from `out`. */
export interface PlacedLabel {
  readonly key: string;
  readonly text: string;
  readonly lane: string;
  readonly side: LabelToPlace["side"];
  readonly x0: number;
  readonly x1: number;
  readonly out: number;
}

/** Height of the box of a label: that of a row of names. */
export const LABEL_PX = 16;
/** Free space between a label and the edge of the lane. */
const EDGE_PX = 3;
/** What it costs to stand on these, each. */
const ON_RIBBON = 60;
const ON_TAKEN = 40;
const ON_NAME = 5;
/** What it costs to stand on its own line, for want of room beside it. */
const ON_ITS_LINE = 4;
/** What it costs to stand on the other side of its line, on a lane that is less good, a row farther in, and elsewhere than before. */
const OTHER_SIDE = 3;
const OTHER_LANE = 3;
const FARTHER_IN = 0.4;
const ELSEWHERE = 2;

/**
 * A place for each of the words, in their order; `had` are the places of a moment ago, which are kept where others are hardly better.
 * The sky of a lane is asked for only where no better lane has a place as cheap: it is dear to look at.
 */
export function placeLabels(
  labels: readonly LabelToPlace[],
  skyOver: (lane: string) => LabelSky | null,
  had: readonly PlacedLabel[] = [],
): readonly PlacedLabel[] {
  const placed: PlacedLabel[] = [];
  for (const label of labels) {
    const best = bestPlace(label, skyOver, had.find(({ key }) => key === label.key) ?? null, placed);
    if (best) placed.push(best);
  }
  return placed;
}

function bestPlace(
  label: LabelToPlace,
  skyOver: (lane: string) => LabelSky | null,
  was: PlacedLabel | null,
  placed: readonly PlacedLabel[],
): PlacedLabel | null {
  let best: PlacedLabel | null = null;
  let least = Infinity;
  for (const [nth, lane] of label.lanes.entries()) {
    if (nth * OTHER_LANE >= least) break;
    const sky = skyOver(lane);
    if (!sky) continue;
    for (const [place, dear] of placesIn(sky, label, nth, was)) {
      // What it stands on is looked at only where it can still be the cheapest.
      const cost = dear >= least ? Infinity : dear + costIn(place, sky);
      if (cost >= least || placed.some((other) => labelsMeet(place, other))) continue;
      least = cost;
      best = place;
    }
  }
  return best;
}

/** The places in the `nth` lane, and what each costs without what it stands on. */
function placesIn(
  sky: LabelSky,
  label: LabelToPlace,
  nth: number,
  was: PlacedLabel | null,
): readonly (readonly [PlacedLabel, number])[] {
  return sky.rows.toReversed().flatMap((out, row) =>
    SIDES.map((side): readonly [PlacedLabel, number] => {
      const place = beside(label, sky, out, side);
      return [place, nth * OTHER_LANE + row * FARTHER_IN + dearOf(label, place, was)];
    }),
  );
}

const SIDES = ["before", "after"] as const;

/** What a place costs for its side of the line, and for being another than before. */
function dearOf(
  label: LabelToPlace,
  { lane, side, x0, x1, out }: PlacedLabel,
  was: PlacedLabel | null,
): number {
  const same = was?.lane === lane && was.out === out && was.side === side;
  return (
    (side === label.side ? 0 : OTHER_SIDE) +
    (x1 > label.x && x0 < label.x ? ON_ITS_LINE : 0) +
    (was === null || same ? 0 : ELSEWHERE)
  );
}

/** Beside its line, and at the edge of the lane where it has no room there. */
function beside(
  { key, text, widthPx, x }: LabelToPlace,
  sky: LabelSky,
  out: number,
  side: LabelToPlace["side"],
): PlacedLabel {
  const wanted = side === "before" ? x - widthPx : x;
  const x0 = Math.max(EDGE_PX, Math.min(sky.widthPx - EDGE_PX - widthPx, wanted));
  return { key, text, lane: sky.lane, side, x0, x1: x0 + widthPx, out };
}

function costIn(place: PlacedLabel, sky: LabelSky): number {
  const box = labelBox(place);
  let cost = 0;
  for (let x = Math.round(box.x0); x <= box.x1; x += 1)
    if ((sky.ribbon[x] ?? 0) > box.out0) {
      cost += ON_RIBBON;
      break;
    }
  const on = (boxes: readonly Box[]): number => boxes.filter((one) => boxesMeet(box, one)).length;
  return cost + ON_RIBBON * on(sky.inHand) + ON_TAKEN * on(sky.taken) + ON_NAME * on(sky.names);
}

/** The room that a label takes. */
export function labelBox({ x0, x1, out }: PlacedLabel): Box {
  return { x0, x1, out0: out - LABEL_PX / 2, out1: out + LABEL_PX / 2 };
}

function labelsMeet(a: PlacedLabel, b: PlacedLabel): boolean {
  return a.lane === b.lane && boxesMeet(labelBox(a), labelBox(b));
}

/** A row that only touches the next does not lie on it, pixels. */
const TOUCH_PX = 1.5;

/** True where two boxes of a lane lie on each other. */
export function boxesMeet(a: Box, b: Box): boolean {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.out0 + TOUCH_PX < b.out1 && b.out0 + TOUCH_PX < a.out1;
}

import {
  type Box,
  type LabelWish,
  layLabels,
  layPlates,
  type Leader,
  type MapFrame,
  meets,
} from "../../editor/map/index.ts";
import type { Brush } from "../parts/canvas/brush.ts";
import { frameBoxes } from "./framebox.ts";

/** Where the words of the map go: beside their things where there is room, else in a column with a leader each. */

/** Height of a line of words, pixels. */
export const LINE_PX = 15;
/** What a name is written on. */
const PILL_PX = { aside: 10, above: 3 };
/** Room at the lower right for how many names have none. */
const READOUT_PX = { width: 260, height: 24 };

/** A longer leader runs across the map to a name that nobody looks for there, pixels. */
const LONGEST_PX = 220;

/** Words about one thing of the map. */
export interface MapText {
  readonly key: string;
  readonly x: number;
  readonly y: number;
  readonly radiusPx: number;
  readonly rank: number;
  readonly lines: readonly { readonly text: string; readonly font: string }[];
  readonly ink: (brush: Brush) => string;
  /** Set for somebody's sign: white on their colour. */
  readonly pill?: { readonly ground: (brush: Brush) => string };
  /** True where its first line is the name of a place: without it nobody can tell what the sign is. */
  readonly names?: boolean;
}

/** Words with the place that they have. */
export interface LaidText {
  readonly text: MapText;
  readonly left: number;
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** From the thing to its words, where they stand apart from it. */
  readonly leader: Leader | null;
}

export interface LaidTexts {
  readonly laid: readonly LaidText[];
  /** How many places in the picture have no name for want of room. */
  readonly leftOut: number;
}

/**
 * Every text that has room. A place whose words have none beside it keeps its name, in a column with its neighbours'; `widthOf` says how
 * wide a line is, pixels.
 */
export function layTexts(
  texts: readonly MapText[],
  widthOf: (font: string, text: string) => number,
  frame: MapFrame,
): LaidTexts {
  const { widthPx, heightPx } = frame;
  const readout = {
    left: widthPx - READOUT_PX.width,
    right: widthPx,
    top: heightPx - READOUT_PX.height,
    bottom: heightPx,
  };
  const kept = [...frameBoxes(frame), readout];
  const sized = texts.map((text) => ({ text, wish: wishOf(text, widthOf) }));
  const byKey = new Map(sized.map((one) => [one.text.key, one]));
  const beside = layLabels(
    sized.map(({ wish }) => wish),
    widthPx,
    heightPx,
    kept,
  ).map(({ key, left, top }) => laidText(byKey.get(key)!, left, top, null));
  const done = new Set(beside.map(({ text }) => text.key));
  const unnamed = sized
    .filter(({ text }) => text.names && !done.has(text.key) && isIn(frame, text))
    .map(({ text: { lines, ...rest } }) => ({ ...rest, lines: lines.slice(0, 1) }))
    .map((text) => ({ text, wish: wishOf(text, widthOf) }));
  const words = beside.map(boxOf);
  // What is asked about has to be read: no leader runs through its words.
  const chosen = beside.filter(({ text }) => text.rank === Infinity && text.names).map(boxOf);
  const shortOf = new Map(unnamed.map((one) => [one.text.key, one]));
  const taken = [
    ...kept,
    ...words,
    ...sized.filter(({ text }) => !shortOf.has(text.key)).map(({ wish }) => signOf(wish)),
  ];
  const { plates } = layPlates(
    unnamed.map(({ wish }) => wish),
    widthPx,
    heightPx,
    taken,
  );
  const apart = plates
    .filter(
      ({ leader }) =>
        leader === null || (lengthOf(leader) <= LONGEST_PX && !chosen.some((box) => meets(leader, box))),
    )
    .map(({ key, left, top, leader }) => laidText(shortOf.get(key)!, left, top, leader));
  return { laid: [...beside, ...apart], leftOut: unnamed.length - apart.length };
}

function lengthOf([x1, y1, x2, y2]: Leader): number {
  return Math.hypot(x2 - x1, y2 - y1);
}

function isIn({ widthPx, heightPx }: MapFrame, { x, y }: MapText): boolean {
  return x >= 0 && y >= 0 && x <= widthPx && y <= heightPx;
}

interface Sized {
  readonly text: MapText;
  readonly wish: LabelWish;
}

function wishOf(text: MapText, widthOf: (font: string, text: string) => number): LabelWish {
  const widest = Math.max(...text.lines.map((line) => widthOf(line.font, line.text)));
  return {
    ...{ key: text.key, x: text.x, y: text.y, radiusPx: text.radiusPx, rank: text.rank },
    widthPx: widest + (text.pill ? PILL_PX.aside : 0),
    heightPx: text.lines.length * LINE_PX + (text.pill ? PILL_PX.above : 0),
  };
}

function laidText({ text, wish }: Sized, left: number, top: number, leader: Leader | null): LaidText {
  return { text, left, top, widthPx: wish.widthPx, heightPx: wish.heightPx, leader };
}

function boxOf({ left, top, widthPx, heightPx }: LaidText): Box {
  return { left, top, right: left + widthPx, bottom: top + heightPx };
}

function signOf({ x, y, radiusPx }: LabelWish): Box {
  return { left: x - radiusPx, top: y - radiusPx, right: x + radiusPx, bottom: y + radiusPx };
}

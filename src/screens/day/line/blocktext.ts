/** Where something is written, pixels: its left end or its middle, and its baseline. */
interface Written {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly face: Face;
}

/** How something is written in a block. */
export type Face = "number" | "name" | "strong" | "facts";

/** Width of a text in a face, pixels. */
export type Measure = (text: string, face: Face) => number;

/** The part of a block that can be written in: what is in sight, without its hatched edge. Pixels. */
export interface Room {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What a block has to say. */
export interface Words {
  readonly number: string;
  readonly name: string;
  /** What is told where there is plenty of room, the most important first. */
  readonly facts: readonly string[];
}

export interface BlockText {
  readonly align: "left" | "center";
  readonly lines: readonly Written[];
  /** True when the whole name stands there. */
  readonly whole: boolean;
}

const SIDE_PX = 3.5;
const LINE_PX = 13;
const LEAD_PX = 14;
/** Room beside the number before the name goes on. */
const GAP_PX = 6;
/** From this width on, what is known besides the name is read without looking for it. */
const FACTS_PX = 150;
/** More lines than this are not read at a glance. */
const MOST_LINES = 6;

/**
 * The number and the whole name of a task in its block, broken between words only, and what else is known of it where there is
 * plenty of room; the number alone where the name has none, and nothing where not even that has.
 */
export function textBeside(room: Room, { number, name, facts }: Words, px: Measure): BlockText {
  const indent = px(number, "number") + GAP_PX;
  const width = room.right - room.left - 2 * SIDE_PX;
  const most = Math.floor((room.bottom - room.top) / LINE_PX);
  const lines = wrapWhole(name, width, most, (text) => px(text, "name"), indent);
  const middle = (room.top + room.bottom) / 2;
  if (!lines) return numberAlone(room, middle, number, px);
  const more =
    width >= FACTS_PX ? facts.filter((text) => px(text, "facts") <= width).slice(0, most - lines.length) : [];
  const first = middle - ((lines.length + more.length) * LINE_PX) / 2 + 10.5;
  const left = room.left + SIDE_PX;
  return {
    align: "left",
    whole: true,
    lines: [
      { text: number, x: left, y: first, face: "number" },
      ...lines.map((text, i) => ({
        text,
        x: i === 0 ? left + indent : left,
        y: first + i * LINE_PX,
        face: "name" as const,
      })),
      ...more.map((text, i) => ({
        text,
        x: left,
        y: first + (lines.length + i) * LINE_PX,
        face: "facts" as const,
      })),
    ],
  };
}

/** The same for what two do together: number, name and more under each other about the line home. */
export function textAcross(room: Room, { number, name, facts }: Words, px: Measure): BlockText {
  const width = room.right - room.left - 2 * SIDE_PX;
  const most = Math.min(MOST_LINES, Math.floor((room.bottom - room.top - LEAD_PX) / LEAD_PX));
  const roomy = width >= FACTS_PX;
  const face = roomy ? "strong" : "name";
  const lines = wrapWhole(name, width, most, (text) => px(text, face), 0);
  const middle = (room.top + room.bottom) / 2;
  if (!lines) return numberAlone(room, middle, number, px);
  const more = roomy ? facts.filter((text) => px(text, "facts") <= width).slice(0, most - lines.length) : [];
  const first = middle - ((lines.length + more.length + 1) * LEAD_PX) / 2 + 10.5;
  const x = (room.left + room.right) / 2;
  const all: readonly (readonly [string, Face])[] = [
    [number, "number"],
    ...lines.map((text) => [text, face] as const),
    ...more.map((text) => [text, "facts"] as const),
  ];
  return {
    align: "center",
    whole: true,
    lines: all.map(([text, face], i) => ({ text, x, y: first + i * LEAD_PX, face })),
  };
}

function numberAlone(room: Room, middle: number, number: string, px: Measure): BlockText {
  const fits = px(number, "number") + 2 <= room.right - room.left && room.bottom - room.top >= 11;
  const x = (room.left + room.right) / 2;
  return {
    align: "center",
    whole: false,
    lines: fits ? [{ text: number, x, y: middle + 4.5, face: "number" }] : [],
  };
}

/** `text` broken between words into at most `most` lines of `width`, the first one shorter by `indent`; null when it does not fit. */
function wrapWhole(
  text: string,
  width: number,
  most: number,
  px: (text: string) => number,
  indent: number,
): readonly string[] | null {
  if (most < 1 || width <= 0) return null;
  const lines: string[] = [];
  let line = "";
  let room = width - indent;
  for (const word of text.split(" ")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (px(longer) <= room) {
      line = longer;
      continue;
    }
    // Only beside the number may a line stay empty.
    if (line === "" && (lines.length > 0 || indent === 0)) return null;
    lines.push(line);
    if (lines.length >= most || px(word) > width) return null;
    line = word;
    room = width;
  }
  return [...lines, line];
}

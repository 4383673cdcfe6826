import { around, type Box, isSeen, type LabelPlace, type LabelWish, overlap } from "./labels.ts";

/**
 * Names on plates: beside their things where these stand free, and in a column or two with a leader each where they crowd. No plate lies
 * on another and no two leaders cross. Pure geometry in pixels.
 */
interface Plate extends LabelPlace {
  /** From the thing to its plate: x and y of both ends; null where it stands beside it. */
  readonly leader: Leader | null;
}

export type Leader = readonly [number, number, number, number];

export interface Plates {
  readonly plates: readonly Plate[];
  /** Things in the picture whose plates found no room. */
  readonly leftOut: readonly string[];
}

/** So near to each other things crowd, pixels, and from so many on their names go to a column. */
const CROWD_PX = 44;
const CROWD = 3;
/** Things whose names found no room beside them share a column when they are no farther apart, pixels. */
const SHARE_PX = 140;
/** Between the rows of a column, and from one height to the next that is tried for it. */
const ROW_GAP_PX = 3;
const STEP_PX = 14;
const EDGE_PX = 4;
const AWAY_PX = [30, 64, 120, 190, 280];
/** From so many members on a group may have two columns, where these cost less than this part of what one does. */
const PARTED = 5;
const SHORTER = 0.8;
/** What a leader under a plate of another thing weighs against its length, pixels. */
const OVER_PLATE_PX = 120;

/** Plates for all that is in the picture; they keep off the boxes in `kept`. */
export function layPlates(
  wishes: readonly LabelWish[],
  widthPx: number,
  heightPx: number,
  kept: readonly Box[] = [],
): Plates {
  const seen = wishes.filter((one) => isSeen(one, widthPx, heightPx));
  const room: Room = { widthPx, heightPx, taken: [...kept, ...seen.map(signOf)], leaders: [] };
  const crowds = clusters(seen, CROWD_PX).filter((group) => group.length >= CROWD);
  const crowded = new Set(crowds.flat());
  const plates: Plate[] = [];
  // The greatest crowds first: they are hardest to place.
  const left = crowds.toSorted((a, b) => b.length - a.length).flatMap((group) => column(group, room, plates));
  const free = seen.filter((one) => !crowded.has(one)).toSorted((a, b) => b.rank - a.rank);
  const lost = free.filter((wish) => !beside(wish, room, plates));
  const out = clusters([...lost, ...left], SHARE_PX).flatMap((group) => column(group, room, plates));
  return { plates, leftOut: out.map((one) => one.key) };
}

interface Room {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly taken: Box[];
  readonly leaders: Leader[];
}

function signOf({ x, y, radiusPx }: LabelWish): Box {
  return { left: x - radiusPx, top: y - radiusPx, right: x + radiusPx, bottom: y + radiusPx };
}

function isFree(room: Room, box: Box, own: Box | null = null): boolean {
  const inside =
    box.left >= EDGE_PX &&
    box.top >= EDGE_PX &&
    box.right <= room.widthPx - EDGE_PX &&
    box.bottom <= room.heightPx - EDGE_PX;
  return inside && room.taken.every((other) => same(other, own) || !overlap(box, other));
}

function same(a: Box, b: Box | null): boolean {
  return b !== null && a.left === b.left && a.top === b.top && a.right === b.right && a.bottom === b.bottom;
}

function beside(wish: LabelWish, room: Room, plates: Plate[]): boolean {
  const box = around(wish, 0).find(
    (one) => isFree(room, one, signOf(wish)) && room.leaders.every((line) => !meets(line, one)),
  );
  if (!box) return false;
  room.taken.push(box);
  plates.push({ key: wish.key, left: box.left, top: box.top, leader: null });
  return true;
}

/** Lays a group out as a column, less its least members where not all have room; the answer is who has none. */
function column(group: readonly LabelWish[], room: Room, plates: Plate[]): readonly LabelWish[] {
  const ranked = group.toSorted((a, b) => b.rank - a.rank);
  for (let count = ranked.length; count > 0; count -= 1) {
    const laid = bestLaid(ranked.slice(0, count), room);
    if (!laid) continue;
    take(room, laid.rows);
    for (const { wish, box, leader } of laid.rows)
      plates.push({ key: wish.key, left: box.left, top: box.top, leader });
    return ranked.slice(count);
  }
  return ranked;
}

interface Laid {
  readonly rows: readonly Row[];
  readonly cost: number;
}

/** A group as one column, or parted into two where their leaders are that much shorter. */
function bestLaid(group: readonly LabelWish[], room: Room): Laid | null {
  const whole = bestColumn(group, room);
  if (group.length < PARTED) return whole;
  const across = group.toSorted((a, b) => a.x - b.x || a.y - b.y);
  const half = Math.ceil(across.length / 2);
  const first = bestColumn(across.slice(0, half), room);
  if (!first) return whole;
  const beside = { ...room, taken: [...room.taken], leaders: [...room.leaders] };
  take(beside, first.rows);
  const second = bestColumn(across.slice(half), beside);
  if (!second) return whole;
  const cost = first.cost + second.cost;
  return whole && whole.cost * SHORTER <= cost ? whole : { rows: [...first.rows, ...second.rows], cost };
}

function take(room: Room, rows: readonly Row[]): void {
  for (const { box, leader } of rows) {
    room.taken.push(box);
    room.leaders.push(leader);
  }
}

interface Row {
  readonly wish: LabelWish;
  readonly box: Box;
  readonly leader: Leader;
}

function bestColumn(group: readonly LabelWish[], room: Room): Laid | null {
  const width = Math.max(...group.map((one) => one.widthPx));
  const pitch = Math.max(...group.map((one) => one.heightPx)) + ROW_GAP_PX;
  const least = Math.min(...group.map((one) => one.x));
  const most = Math.max(...group.map((one) => one.x));
  const xs = AWAY_PX.flatMap((away) => [
    { left: most + away, side: "right" as const },
    { left: least - away - width, side: "left" as const },
  ]);
  let best: Laid | null = null;
  for (const { left, side } of xs) {
    for (let top = EDGE_PX; top + pitch * group.length <= room.heightPx - EDGE_PX; top += STEP_PX) {
      const box = { left, top, right: left + width, bottom: top + pitch * group.length };
      if (!isFree(room, box)) continue;
      const rows = rowsOf(group, box, pitch, side);
      const cost = costOf(rows, room);
      if (cost < (best?.cost ?? Infinity)) best = { rows, cost };
    }
  }
  return best;
}

/** The rows of a column in the order in which no two leaders cross: wherever two do, exchanging them makes both shorter together. */
function rowsOf(group: readonly LabelWish[], box: Box, pitch: number, side: "left" | "right"): Row[] {
  const order = group.toSorted((a, b) => a.y - b.y || a.x - b.x);
  const row = (wish: LabelWish, k: number): Row => {
    const top = box.top + k * pitch;
    const left = side === "right" ? box.left : box.right - wish.widthPx;
    const right = left + wish.widthPx;
    const leader = [wish.x, wish.y, side === "right" ? left : right, top + wish.heightPx / 2] as const;
    return { wish, box: { left, top, right, bottom: top + wish.heightPx }, leader };
  };
  // Each exchange shortens the whole, so that this ends; the bound is for equal lengths alone.
  for (let left = order.length ** 3; left > 0; left -= 1) {
    const rows = order.map(row);
    const pair = crossing(rows);
    if (!pair) return rows;
    const [i, j] = pair;
    order.splice(i, 1, ...order.splice(j, 1, ...order.slice(i, i + 1)));
  }
  return order.map(row);
}

function crossing(rows: readonly Row[]): readonly [number, number] | null {
  for (const [j, b] of rows.entries())
    for (const [i, a] of rows.slice(0, j).entries()) if (cross(a.leader, b.leader)) return [i, j];
  return null;
}

/** Length of the leaders, more where they run over plates or plates lie on others; endless where one crosses another. */
function costOf(rows: readonly Row[], room: Room): number {
  let cost = 0;
  if (crossing(rows)) return Infinity;
  for (const { wish, box: plate, leader } of rows) {
    if (room.leaders.some((other) => cross(leader, other))) return Infinity;
    const own = signOf(wish);
    const over = room.taken.filter((box) => !same(box, own) && meets(leader, box)).length;
    const covered = room.leaders.filter((line) => meets(line, plate)).length;
    cost += Math.hypot(leader[2] - leader[0], leader[3] - leader[1]) + (over + covered) * OVER_PLATE_PX;
  }
  return cost;
}

/** Groups of wishes in which each is within `nearPx` of another one. */
function clusters(wishes: readonly LabelWish[], nearPx: number): readonly (readonly LabelWish[])[] {
  const groups: LabelWish[][] = [];
  for (const wish of wishes) {
    const touching = groups.filter((group) =>
      group.some((one) => Math.hypot(one.x - wish.x, one.y - wish.y) <= nearPx),
    );
    for (const group of touching) groups.splice(groups.indexOf(group), 1);
    groups.push([...touching.flat(), wish]);
  }
  return groups;
}

/** True where two lines cross; lines that only touch do not. */
export function cross(a: Leader, b: Leader): boolean {
  const side = (line: Leader, x: number, y: number): number =>
    Math.sign((line[2] - line[0]) * (y - line[1]) - (line[3] - line[1]) * (x - line[0]));
  return side(a, b[0], b[1]) * side(a, b[2], b[3]) < 0 && side(b, a[0], a[1]) * side(b, a[2], a[3]) < 0;
}

/** True where a line runs into a box. */
export function meets(line: Leader, { left, top, right, bottom }: Box): boolean {
  const [x1, y1, x2, y2] = line;
  const within = (x: number, y: number): boolean => x > left && x < right && y > top && y < bottom;
  if (within(x1, y1) || within(x2, y2)) return true;
  return cross(line, [left, top, right, bottom]) || cross(line, [left, bottom, right, top]);
}

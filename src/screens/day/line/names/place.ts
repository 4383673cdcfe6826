import { random } from "../../../../kernel/index.ts";

/**
 * Where the names stand that have no room in their blocks: on rows in the free sky beyond the ribbon, each with a hairline from
 * its block. All of it is counted in pixels of one lane: columns from the left, and outwards from the line home.
 *
 * Never: text on text, on the ribbon, on the ceiling or on what stands there already; a hairline through a name; two hairlines that
 * cannot be told apart. A name that has no such place is left out, the least worth first: its block keeps its number.
 */

/** A rectangle of a sky. */
export interface Box {
  readonly x0: number;
  readonly x1: number;
  readonly out0: number;
  readonly out1: number;
}

/** The sky of one lane. */
export interface Sky {
  readonly lane: string;
  /** How far out the ribbon reaches, and where the ceiling runs, in each column; Infinity where there is none. */
  readonly ribbon: ArrayLike<number>;
  readonly ceiling: ArrayLike<number>;
  /** Middles of the rows, from home outwards. */
  readonly rows: readonly number[];
  /** What stands there already. */
  readonly taken: readonly Box[];
  /** The columns that may be written in. */
  readonly left: number;
  readonly right: number;
}

/** A name that asks for a place. */
export interface NameToPlace {
  readonly key: string;
  readonly widthPx: number;
  /** Who must go without goes by the least of it. */
  readonly worth: number;
  /** Its block on each lane that it may be named from, the better one first: the columns that are in sight. */
  readonly on: readonly { readonly lane: string; readonly from: number; readonly to: number }[];
}

/** A name with its place: the text's middle lies `out`, its hairline runs in column `hair` from the ribbon at `foot`. */
export interface PlacedName {
  readonly key: string;
  readonly lane: string;
  readonly x0: number;
  readonly x1: number;
  readonly out: number;
  readonly hair: number;
  readonly foot: number;
}

/** Half the height that a line of text takes. */
export const HALF_TEXT_PX = 7;
/** Free space between text and ribbon, between two texts in a row, and between two hairlines. */
const CLEAR_PX = 2;
const BESIDE_PX = 5;
const APART_PX = 5;
/** Rows nearer than this lie on each other. */
const ROW_PX = 13;
/** Where on its hairline a text may stand, as a share of its width, and where on the block the hairline, from the best. */
interface Choice {
  readonly offsets: readonly number[];
  readonly alongs: readonly number[];
}

/** What is tried at once, and with patience. */
const FEW: Choice = { offsets: [0, 0.12, 0.25, 0.4, 0.55, 0.7, 0.85, 1], alongs: [0.5, 0.2, 0.8] };
const MANY: Choice = {
  offsets: Array.from({ length: 17 }, (_, i) => i / 16),
  alongs: [0.5, 0.2, 0.8, 0.35, 0.65, 0.05, 0.95],
};
/** How far apart columns are looked at. */
const STEP_PX = 4;

interface Option extends PlacedName {
  /** The less, the nearer to its block. */
  readonly cost: number;
}

/** Every place that a name may have with nothing else in the sky, best first. */
function optionsOf(name: NameToPlace, skies: readonly Sky[], { offsets, alongs }: Choice): readonly Option[] {
  const options: Option[] = [];
  const tries = offsets.flatMap((offset) => alongs.map((along) => ({ offset, along })));
  for (const [nth, { lane, from, to }] of name.on.entries()) {
    const sky = skies.find((one) => one.lane === lane);
    if (!sky) continue;
    for (const { offset, along } of tries) {
      const hair = hairOf(from, to - from, along);
      const x0 = hair - 3 - offset * (name.widthPx - 6);
      const x1 = x0 + name.widthPx;
      if (x0 < sky.left || x1 > sky.right) continue;
      const dear = offset * 3 + (along === 0.5 ? 0 : 0.6) + nth * 1.5;
      options.push(...inRows(name.key, sky, { x0, x1, hair }, dear));
    }
  }
  return options.sort((a, b) => a.cost - b.cost);
}

/** Where the hairline stands on a block, so far along it and never at its very ends. */
function hairOf(from: number, widthPx: number, along: number): number {
  return from + Math.max(2, Math.min(widthPx - 2, widthPx * along));
}

function inRows(
  key: string,
  sky: Sky,
  { x0, x1, hair }: { readonly x0: number; readonly x1: number; readonly hair: number },
  dear: number,
): readonly Option[] {
  let highest = 0;
  let ceilingLow = Infinity;
  let ceilingHigh = -Infinity;
  for (let x = x0; x < x1 + STEP_PX; x += STEP_PX) {
    const column = Math.round(Math.min(x, x1));
    highest = Math.max(highest, sky.ribbon[column] ?? 0);
    const ceiling = sky.ceiling[column] ?? Infinity;
    ceilingLow = Math.min(ceilingLow, ceiling);
    if (ceiling < Infinity) ceilingHigh = Math.max(ceilingHigh, ceiling);
  }
  const foot = sky.ribbon[Math.round(hair)] ?? 0;
  return sky.rows.flatMap((out, row): readonly Option[] => {
    if (out - HALF_TEXT_PX < highest + CLEAR_PX) return [];
    if (out + HALF_TEXT_PX + 1 > ceilingLow && out - HALF_TEXT_PX - 1 < ceilingHigh) return [];
    const place = { key, lane: sky.lane, x0, x1, out, hair, foot };
    if (sky.taken.some((box) => meets(place, box))) return [];
    return [{ ...place, cost: (out - foot) * 0.13 + row * 0.5 + dear }];
  });
}

/** True where text or hairline of a name meets a box. */
function meets({ x0, x1, out, hair, foot }: PlacedName, box: Box): boolean {
  const text =
    x0 < box.x1 + 3 && x1 > box.x0 - 3 && out + HALF_TEXT_PX > box.out0 && out - HALF_TEXT_PX < box.out1;
  return text || (hair > box.x0 - 2 && hair < box.x1 + 2 && box.out1 > foot && box.out0 < out);
}

/** True where two names cannot stand both. */
export function clash(a: PlacedName, b: PlacedName): boolean {
  if (a.lane !== b.lane) return false;
  const apart = Math.abs(a.hair - b.hair);
  if (apart < APART_PX) return true;
  if (Math.abs(a.out - b.out) < ROW_PX && a.x0 < b.x1 + BESIDE_PX && b.x0 < a.x1 + BESIDE_PX) return true;
  return through(a, b) || through(b, a);
}

/** True where the hairline of `a` runs through the text of `b`. */
function through(a: PlacedName, b: PlacedName): boolean {
  return (
    a.hair > b.x0 - 2 && a.hair < b.x1 + 2 && b.out + HALF_TEXT_PX > a.foot && b.out - HALF_TEXT_PX < a.out
  );
}

/** What is being placed: for each ask its options and the one it has, or none. */
interface Placing {
  readonly wanted: readonly NameToPlace[];
  readonly options: readonly (readonly Option[])[];
  readonly has: (Option | null)[];
  /** For each ask the others, in order, one of whose options may meet one of its own: all that it can clash with. */
  readonly near: readonly (readonly number[])[];
  /** Asks by worth, the greatest first. */
  readonly order: readonly number[];
}

function placingOf(wanted: readonly NameToPlace[], options: readonly (readonly Option[])[]): Placing {
  return {
    wanted,
    options,
    has: wanted.map(() => null),
    near: neighbours(options),
    order: wanted.map((_, n) => n).sort((a, b) => wanted[b]!.worth - wanted[a]!.worth || a - b),
  };
}

/** Which lists hold options that reach into each other's columns; the others never clash. */
function neighbours(options: readonly (readonly Option[])[]): readonly (readonly number[])[] {
  const reaches = options.map((own) => ({
    from: own.reduce((least, { x0, hair }) => Math.min(least, x0, hair), Infinity),
    to: own.reduce((most, { x1, hair }) => Math.max(most, x1, hair), -Infinity),
  }));
  return reaches.map((own, n) =>
    reaches.flatMap((other, m) =>
      m !== n && own.from < other.to + BESIDE_PX && other.from < own.to + BESIDE_PX ? [m] : [],
    ),
  );
}

function placedIn({ has }: Placing): readonly PlacedName[] {
  return has.flatMap((one) => (one ? [one] : []));
}

/** The first option of `n` that nothing placed clashes with, but for `aside`. */
function freeOption({ options, has, near }: Placing, n: number): Option | null {
  const rivals = near[n]!.flatMap((m) => has[m] ?? []);
  return options[n]!.find((option) => rivals.every((other) => !clash(option, other))) ?? null;
}

/** Places what still has no place and needs nobody to step aside, the most worth first. */
function fill(placing: Placing): void {
  for (const n of placing.order) placing.has[n] ??= freeOption(placing, n);
}

/** Turns tried for each name. */
const TURNS = 8;
/** A name that has just been given its place keeps it for so many turns. */
const KEEPS = 7;
/** What it weighs to take a name away: the more often it was, the more. Beside it a place farther from its block hardly counts. */
const AGAIN = 0.25;
const FARTHER = 0.004;
/**
 * Gives names that have no place one from which others must step aside, the least of them, which then ask anew: in circles it does not
 * go, since who has just come stays a while, and who has had to go often stays longer. The best that it comes by is kept.
 */
function makeRoom(placing: Placing): void {
  const { wanted, has } = placing;
  let best = [...has];
  let most = countOf(has);
  const gone = wanted.map(() => 0);
  const until = wanted.map(() => 0);
  const missing = placing.order.filter((n) => !has[n] && placing.options[n]!.length > 0);
  for (let turn = 0; turn < TURNS * wanted.length; turn += 1) {
    const n = missing.shift();
    if (n === undefined) break;
    const weigh = (m: number): number => (until[m]! > turn ? Infinity : 1 + AGAIN * gone[m]!);
    const option = leastInTheWay(placing, n, weigh);
    if (!option) {
      missing.push(n);
      continue;
    }
    for (const m of inTheWay(placing, n, option)) {
      has[m] = null;
      gone[m]! += 1;
      missing.push(m);
    }
    has[n] = option;
    until[n] = turn + KEEPS;
    const count = countOf(has);
    if (count <= most) continue;
    most = count;
    best = [...has];
  }
  best.forEach((one, n) => (has[n] = one));
}

function countOf(has: Placing["has"]): number {
  return has.reduce((sum, one) => sum + (one ? 1 : 0), 0);
}

/** The option of `n` for which what must step aside weighs least; null where none may be had. */
function leastInTheWay(
  { options, has, near }: Placing,
  n: number,
  weigh: (m: number) => number,
): Option | null {
  const rivals = near[n]!.flatMap((m) => {
    const other = has[m];
    return other ? [{ other, weight: weigh(m) }] : [];
  });
  let best: Option | null = null;
  let least = Infinity;
  for (const option of options[n]!) {
    let weight = FARTHER * option.cost;
    for (const rival of rivals) {
      if (weight >= least) break;
      if (clash(option, rival.other)) weight += rival.weight;
    }
    if (weight >= least) continue;
    least = weight;
    best = option;
  }
  return best;
}

function inTheWay({ has, near }: Placing, n: number, option: Option): readonly number[] {
  return near[n]!.filter((m) => {
    const other = has[m];
    return other && clash(option, other);
  });
}

/** Brings each name as near to its block as the others let it, the most worth first. */
function drawNear(placing: Placing): void {
  for (const n of placing.order) if (placing.has[n]) placing.has[n] = freeOption(placing, n);
}

/** Gives names the places back that they had, as far as these are still places and in nobody's way. */
function takeBack(placing: Placing, skies: readonly Sky[], had: readonly PlacedName[]): void {
  const before = new Map(had.map((one) => [one.key, one]));
  for (const n of placing.order) {
    const name = placing.wanted[n]!;
    const was = before.get(name.key);
    const block = was && name.on.find(({ lane }) => lane === was.lane);
    const sky = was && skies.find(({ lane }) => lane === was.lane);
    if (!was || !block || !sky || Math.abs(was.x1 - was.x0 - name.widthPx) > 0.5) continue;
    if (was.hair < block.from || was.hair > block.to || was.x0 < sky.left || was.x1 > sky.right) continue;
    const same = inRows(name.key, sky, was, 0).find(({ out }) => out === was.out);
    if (same && inTheWay(placing, n, same).length === 0) placing.has[n] = same;
  }
}

/**
 * A place for as many names as are found at once: the most worth first, each as near to its block as it can. Where the same names `had`
 * places before they keep them, so that an edit elsewhere moves none.
 */
export function placeNames(
  wanted: readonly NameToPlace[],
  skies: readonly Sky[],
  had: readonly PlacedName[] = [],
): readonly PlacedName[] {
  const options = wanted.map((name) => optionsOf(name, skies, FEW));
  const placing = placingOf(wanted, options);
  takeBack(placing, skies, had);
  const kept = placing.has.some((one) => one !== null);
  fill(placing);
  makeRoom(placing);
  if (!kept) drawNear(placing);
  return placedIn(placing);
}

/** Moves tried for each name in one cooling after the other, and how many names may lack a place for the later ones to be worth it. */
const COOLINGS = [600, 600, 600, 2400, 2400, 2400];
const SHORT_COOLINGS = 3;
const FEW_MISSING = 2;
const HOT = 60;
/** Moves between two pauses. */
const SLICE = 300;
const CLASH_COST = 300;
const NOWHERE_COST = 999;

/**
 * The same with more patience and more places to choose from: simulated annealing with a fixed seed, so that the same line always comes out
 * the same. It pauses after every slice of work; its answer is never less than `atOnce`, which `placeNames` has placed.
 */
export function* placeNamesBetter(
  wanted: readonly NameToPlace[],
  skies: readonly Sky[],
  atOnce: readonly PlacedName[] = placeNames(wanted, skies),
): Generator<void, readonly PlacedName[]> {
  let best = atOnce;
  const options: (readonly Option[])[] = [];
  for (const name of wanted) {
    options.push(optionsOf(name, skies, MANY));
    yield;
  }
  const placing = placingOf(wanted, options);
  const open = placing.order.filter((n) => placing.options[n]!.length > 0);
  const stream = random(7);
  for (const [cooling, each] of COOLINGS.entries()) {
    if (isEnough(open.length - best.length, cooling)) break;
    for (const n of open)
      placing.has[n] = placing.options[n]![stream.below(Math.min(20, placing.options[n]!.length))]!;
    const moves = open.length * each;
    for (let move = 0; move < moves; move += 1) {
      if (move % SLICE === 0) yield;
      const n = open[stream.below(open.length)]!;
      const own = placing.options[n]!;
      const option = own[Math.floor(stream.next() ** 1.6 * own.length)]!;
      const by = costOf(placing, n, option) - costOf(placing, n, placing.has[n]!);
      const heat = HOT * (1 - move / moves) ** 2.2 + 0.02;
      if (by < 0 || stream.next() < Math.exp(-by / heat)) placing.has[n] = option;
    }
    dropClashing(placing);
    makeRoom(placing);
    const found = placedIn(placing);
    best = moreOf(best, found);
  }
  return best;
}

/** The longer one of two; the first where they are as long. */
function moreOf(a: readonly PlacedName[], b: readonly PlacedName[]): readonly PlacedName[] {
  return b.length > a.length ? b : a;
}

/** True where so many names without a place are not worth the next cooling. */
function isEnough(missing: number, cooling: number): boolean {
  return missing <= 0 || (cooling >= SHORT_COOLINGS && missing > FEW_MISSING);
}

function costOf({ has, near }: Placing, n: number, option: Option | null): number {
  if (!option) return NOWHERE_COST;
  let cost = option.cost;
  for (const m of near[n]!) {
    const other = has[m];
    if (other && clash(option, other)) cost += CLASH_COST;
  }
  return cost;
}

/** Takes the least worth of what still clashes away, until nothing does. */
function dropClashing({ has, near, order }: Placing): void {
  for (const n of order.toReversed()) {
    const own = has[n];
    if (!own) continue;
    const clashes = near[n]!.some((m) => {
      const other = has[m];
      return other && clash(own, other);
    });
    if (clashes) has[n] = null;
  }
}

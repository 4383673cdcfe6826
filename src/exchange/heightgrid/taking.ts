import { done, failed, type Outcome } from "../../kernel/index.ts";
import type { PlanGround } from "../../plan/index.ts";
import { isUnknown } from "./asciigrid.ts";
import { type Laying, layingOf } from "./laying.ts";
import type { HeightAnswers, HeightQuestion, SiteOnBody } from "./placing.ts";
import type { HeightSource } from "./source.ts";
import { type Nearby, steepestDeg } from "./steepest.ts";

/** What was taken from a file of heights, so that whoever answers for the plan can see whether it is right. */
export interface HeightsTaken {
  readonly laying: Laying;
  readonly projectionWords: string;
  /** True where a person gave the projection or the bearing of the file's upward side. */
  readonly isLaidByHand: boolean;
  readonly metresPerHeight: number;
  /** True where a person gave the unit. */
  readonly isUnitByHand: boolean;
  /** Least and greatest height as taken, in the file's own count. */
  readonly leastM: number;
  readonly greatestM: number;
  /** Height under the point about which the file is laid, in the file's own count; null where it is not known. */
  readonly landerM: number | null;
  readonly points: number;
  readonly unknownPoints: number;
  /** Steepest slope between neighbours in the part of the file under the net, and on the net. */
  readonly fileSteepestDeg: number;
  readonly steepestDeg: number;
  readonly notes: readonly string[];
}

/** Heights farther apart than this are no ground: no body without air has such relief on so short a way. */
const MOST_RELIEF_M = 60_000;
/** Values that writers often use for unknown without saying so. */
const USUAL_UNKNOWN = [-9999, -99999, -32768, -32767, 32767, 9999];
/** A neighbour with less weight than this does not count, known or not. */
const NO_WEIGHT = 1e-6;

/**
 * The ground from `source` on the plan's net, east and north of the lander: the file's own heights where its points lie on
 * the net, else bilinear between its four nearest, and unknown where one of them is. Else what stands in the way.
 */
export async function takeHeights(
  source: HeightSource,
  site: SiteOnBody,
  answers: HeightAnswers,
): Promise<
  Outcome<{ readonly ground: PlanGround; readonly taken: HeightsTaken }, readonly HeightQuestion[]>
> {
  const found = await layingOf(source, site, answers);
  if (!found.ok) return found;
  const laying = found.value;
  const { cut, columns, cellM } = laying;
  const perUnit = source.metresPerHeight ?? answers.metresPerHeight!;
  const raw = await source.read(cut);
  const width = cut.lastColumn - cut.firstColumn + 1;
  const heightM = raw.map((value) =>
    answers.unknown !== undefined && isUnknown(value, answers.unknown) ? NaN : value * perUnit,
  );
  const netM = onNet(heightM, width, laying);
  const { leastM, greatestM, unknownPoints } = rangeOf(netM);
  if (leastM === null || greatestM === null)
    return needsAnswer("unknown", `Not one height about ${laying.zero} is known in it.`);
  if (greatestM - leastM > MOST_RELIEF_M || Math.max(greatestM, -leastM) > 9_999_999)
    return needsAnswer(
      "unknown",
      `Its heights run from ${rounded(leastM)} to ${rounded(greatestM)} m, which no ground does: one of them may stand for unknown, or the unit is another.`,
    );
  const usual = USUAL_UNKNOWN.filter((one) => raw.includes(one) && one !== answers.unknown);
  const taken: HeightsTaken = {
    laying,
    projectionWords: source.projection
      ? source.projectionWords
      : (answers.projection ?? source.projectionWords),
    isLaidByHand: source.projection === null,
    metresPerHeight: perUnit,
    isUnitByHand: source.metresPerHeight === null,
    ...{ leastM, greatestM, unknownPoints, points: netM.length },
    landerM: known(bilinearAt(heightM, width, ...cellOfLander(laying))),
    fileSteepestDeg: steepestDeg(heightM, width, nearbyOf(laying)),
    steepestDeg: steepestDeg(netM, columns, {
      column: { eastM: cellM, northM: 0 },
      row: { eastM: 0, northM: -cellM },
    }),
    notes: [
      ...source.notes,
      ...usual.map(
        (one) => `A height of ${one} is in it, which often stands for unknown: name it if it does.`,
      ),
    ],
  };
  return done({ ground: groundOf(source.name, laying, netM, answers.unit ?? "cm"), taken });
}

/** Heights of the cut file on the plan's net, row by row from the north. */
function onNet(heightM: Float64Array, width: number, laying: Laying): Float64Array {
  const { cut, columns, rows, westM, southM, cellM } = laying;
  const netM = new Float64Array(columns * rows);
  for (let row = 0; row < rows; row += 1) {
    const northM = southM + (rows - 1 - row) * cellM;
    for (let column = 0; column < columns; column += 1) {
      const [i, j] = laying.placed.cellAt(westM + column * cellM, northM);
      const [x, y] = [i - cut.firstColumn, j - cut.firstRow];
      netM[row * columns + column] = laying.isPointByPoint
        ? pointAt(heightM, width, Math.round(x), Math.round(y))
        : bilinearAt(heightM, width, x, y);
    }
  }
  return netM;
}

function needsAnswer(
  about: HeightQuestion["about"],
  words: string,
): Outcome<never, readonly HeightQuestion[]> {
  return failed([{ about, words }]);
}

function rounded(metres: number): string {
  return Math.abs(metres) < 1e7 ? String(Math.round(metres * 100) / 100) : metres.toExponential(1);
}

function known(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}

function cellOfLander({ placed, cut }: Laying): [number, number] {
  const [column, row] = placed.cellAt(0, 0);
  return [column - cut.firstColumn, row - cut.firstRow];
}

/** How the file's points lie to each other at the lander. */
function nearbyOf({ placed }: Laying): Nearby {
  const [column, row] = placed.cellAt(0, 0);
  const from = placed.localAt(column - 0.5, row - 0.5);
  const right = placed.localAt(column + 0.5, row - 0.5);
  const down = placed.localAt(column - 0.5, row + 0.5);
  return {
    column: { eastM: right.eastM - from.eastM, northM: right.northM - from.northM },
    row: { eastM: down.eastM - from.eastM, northM: down.northM - from.northM },
  };
}

function pointAt(heightM: Float64Array, width: number, x: number, y: number): number {
  return x >= 0 && y >= 0 && x < width ? (heightM[y * width + x] ?? NaN) : NaN;
}

function bilinearAt(heightM: Float64Array, width: number, x: number, y: number): number {
  if (!Number.isFinite(x) || !Number.isFinite(y)) return NaN;
  const column = Math.floor(x + NO_WEIGHT);
  const row = Math.floor(y + NO_WEIGHT);
  const u = weight(x - column);
  const v = weight(y - row);
  const north = mixed(heightM, width, column, row, u);
  return v === 0 ? north : north * (1 - v) + mixed(heightM, width, column, row + 1, u) * v;
}

function mixed(heightM: Float64Array, width: number, column: number, row: number, u: number): number {
  const west = pointAt(heightM, width, column, row);
  return u === 0 ? west : west * (1 - u) + pointAt(heightM, width, column + 1, row) * u;
}

function weight(share: number): number {
  return share < NO_WEIGHT ? 0 : share;
}

function rangeOf(netM: Float64Array): {
  leastM: number | null;
  greatestM: number | null;
  unknownPoints: number;
} {
  let [leastM, greatestM, unknownPoints] = [Infinity, -Infinity, 0];
  for (const height of netM) {
    if (Number.isNaN(height)) unknownPoints += 1;
    else {
      if (height < leastM) leastM = height;
      if (height > greatestM) greatestM = height;
    }
  }
  const isAny = unknownPoints < netM.length;
  return { leastM: isAny ? leastM : null, greatestM: isAny ? greatestM : null, unknownPoints };
}

function groundOf(source: string, laying: Laying, netM: Float64Array, unit: "mm" | "cm"): PlanGround {
  const { columns, rows, westM, southM, cellM } = laying;
  const perMetre = unit === "mm" ? 1000 : 100;
  const heights: string[] = [];
  for (let row = 0; row < rows; row += 1) {
    const line: string[] = [];
    for (let column = 0; column < columns; column += 1) {
      const height = Math.round(netM[row * columns + column]! * perMetre);
      // Adding 0 makes a negative zero plain.
      line.push(Number.isNaN(height) ? "x" : String(height + 0));
    }
    heights.push(line.join(" "));
  }
  return {
    ...{ type: "grid", westM, southM, cellM, columns, rows, detour: 1.05, aim: "time", unit, heights },
    source,
  };
}

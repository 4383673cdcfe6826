import { done, failed, type Outcome } from "../../kernel/index.ts";
import { MOST_POINTS } from "../../plan/index.ts";
import {
  type HeightAnswers,
  type HeightQuestion,
  type Placed,
  placedOn,
  type SiteOnBody,
  zeroName,
} from "./placing.ts";
import { rounded } from "../../words/index.ts";
import type { Cut, HeightSource } from "./source.ts";

/** The plan's net over a file: where its points lie and from which cells of the file they come. */
export interface Laying {
  readonly placed: Placed;
  /** What the point about which it is laid is called. */
  readonly zero: string;
  readonly westM: number;
  readonly southM: number;
  readonly cellM: number;
  readonly columns: number;
  readonly rows: number;
  /** The part of the file under it. */
  readonly cut: Cut;
  /** True where every point of the net is a point of the file, unturned: heights are then the file's own. */
  readonly isPointByPoint: boolean;
  /** Bearing of the file's upward side (towards its first row) there, degrees from true north. */
  readonly upDeg: number;
  /** True where the file is seen as in a mirror: its columns run to the left of its upward side. */
  readonly isMirrored: boolean;
  /** Metres from column to column and from row to row there. */
  readonly columnM: number;
  readonly rowM: number;
}

/** Off a point by less of a cell is on it. */
const ON_POINT = 1e-3;
const FARTHEST_M = 100_000;
const MOST_A_SIDE = 4000;
const LEAST_CELL_M = 0.1;
const MOST_CELL_M = 1000;
/** Cells of the file read at once. */
const MOST_READ = 40_000_000;

/** How `source` would be taken with these answers; else everything that stands in the way, in words. */
export async function layingOf(
  source: HeightSource,
  site: SiteOnBody,
  answers: HeightAnswers,
): Promise<Outcome<Laying, readonly HeightQuestion[]>> {
  const questions: HeightQuestion[] = [];
  if (source.metresPerHeight === null && answers.metresPerHeight === undefined)
    questions.push({ about: "unit", words: `The unit of the heights: ${source.unitWords}.` });
  const found = await placedOn(source, site, answers);
  if (!found.ok) return failed([...questions, found.error]);
  const laying = laid(source, found.value, answers, zeroName(site));
  if (!laying.ok) return failed([...questions, laying.error]);
  return questions.length > 0 ? failed(questions) : laying;
}

function laid(
  source: HeightSource,
  placed: Placed,
  answers: HeightAnswers,
  zero: string,
): Outcome<Laying, HeightQuestion> {
  const [atColumn, atRow] = placed.cellAt(0, 0);
  if (!(atColumn >= 0 && atRow >= 0 && atColumn <= source.columns - 1 && atRow <= source.rows - 1))
    return failed({
      about: "place",
      words: `${zero.replace(/^t/, "T")} lies outside the heights of the file.`,
    });
  const along = placed.localAt(atColumn + 0.5, atRow);
  const against = placed.localAt(atColumn - 0.5, atRow);
  const above = placed.localAt(atColumn, atRow - 0.5);
  const below = placed.localAt(atColumn, atRow + 0.5);
  const right = { eastM: along.eastM - against.eastM, northM: along.northM - against.northM };
  const up = { eastM: above.eastM - below.eastM, northM: above.northM - below.northM };
  const columnM = Math.hypot(right.eastM, right.northM);
  const rowM = Math.hypot(up.eastM, up.northM);
  const isMirrored = right.eastM * up.northM - right.northM * up.eastM < 0;
  const upDeg = ((Math.atan2(up.eastM, up.northM) * 180) / Math.PI + 360) % 360;
  const finestM = toStep(Math.min(columnM, rowM), 1e-6);
  const cellM = answers.spacingM ?? finestM;
  const tooClose = answers.spacingM !== undefined && cellM < finestM * (1 - 1e-6);
  if (tooClose || !(cellM >= LEAST_CELL_M && cellM <= MOST_CELL_M)) {
    const least = Math.max(LEAST_CELL_M, finestM);
    const words = `Points ${cellM} m apart cannot be taken: ${rounded(least, 2, "up")} to ${MOST_CELL_M} m can.`;
    return failed({ about: "size", words });
  }
  const box = boxOf(source, placed, Math.min(answers.reachM ?? Infinity, FARTHEST_M));
  // With the lander between points of the file, the net stands on the file's points; turned, on the lander.
  const nearest = placed.localAt(Math.round(atColumn), Math.round(atRow));
  const onPoints = netOn(box, nearest, cellM);
  const isPointByPoint = isOnPoints(source, placed, onPoints);
  const net = isPointByPoint ? onPoints : netOn(box, { eastM: 0, northM: 0 }, cellM);
  if (net.columns < 2 || net.rows < 2)
    return failed({ about: "size", words: "Fewer than two by two heights are wanted." });
  if (net.columns * net.rows > MOST_POINTS || net.columns > MOST_A_SIDE || net.rows > MOST_A_SIDE)
    return failed({ about: "size", words: tooManyWords(net, zero) });
  const cut = cutUnder(source, placed, net);
  if ((cut.lastColumn - cut.firstColumn + 1) * (cut.lastRow - cut.firstRow + 1) > MOST_READ)
    return failed({
      about: "size",
      words: "The part of the file under it is too large to be read: take less of it.",
    });
  return done({ placed, zero, ...net, cut, isPointByPoint, upDeg, isMirrored, columnM, rowM });
}

type GridCell = readonly [column: number, row: number];

interface Box {
  readonly west: number;
  readonly east: number;
  readonly south: number;
  readonly north: number;
}

interface PlainNet {
  readonly westM: number;
  readonly southM: number;
  readonly cellM: number;
  readonly columns: number;
  readonly rows: number;
}

/** Looks along each side of a file or a net. */
const LOOKS = 32;

/** The upright box round the file, no farther from the lander than wanted. */
function boxOf({ columns, rows }: HeightSource, placed: Placed, reachM: number): Box {
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let k = 0; k <= LOOKS; k += 1) {
    const column = ((columns - 1) * k) / LOOKS;
    const row = ((rows - 1) * k) / LOOKS;
    for (const [i, j] of [
      [column, 0],
      [column, rows - 1],
      [0, row],
      [columns - 1, row],
    ] as const) {
      const { eastM, northM } = placed.localAt(i, j);
      if (Number.isNaN(eastM + northM)) continue;
      west = Math.min(west, eastM);
      east = Math.max(east, eastM);
      south = Math.min(south, northM);
      north = Math.max(north, northM);
    }
  }
  return {
    west: Math.max(west, -reachM),
    east: Math.min(east, reachM),
    south: Math.max(south, -reachM),
    north: Math.min(north, reachM),
  };
}

/** The net inside `box` one of whose points is `on`. */
function netOn(box: Box, on: { readonly eastM: number; readonly northM: number }, cellM: number): PlainNet {
  const first = (from: number, at: number): number => Math.ceil((from - at) / cellM - ON_POINT);
  const last = (to: number, at: number): number => Math.floor((to - at) / cellM + ON_POINT);
  const west = first(box.west, on.eastM);
  const south = first(box.south, on.northM);
  return {
    westM: toStep(on.eastM + west * cellM, 0.01),
    southM: toStep(on.northM + south * cellM, 0.01),
    cellM,
    columns: Math.max(0, last(box.east, on.eastM) - west + 1),
    rows: Math.max(0, last(box.north, on.northM) - south + 1),
  };
}

/** Whether the corners of the net, and with them all its points, are points of the file, next to each other there too. */
function isOnPoints({ columns, rows }: HeightSource, placed: Placed, net: PlainNet): boolean {
  const east = net.westM + (net.columns - 1) * net.cellM;
  const north = net.southM + (net.rows - 1) * net.cellM;
  const corners = [
    placed.cellAt(net.westM, net.southM),
    placed.cellAt(east, net.southM),
    placed.cellAt(net.westM, north),
    placed.cellAt(east, north),
  ];
  // A net moved to whole centimetres is a little off.
  const noise = ON_POINT + 0.006 / net.cellM;
  const isOn = (at: number, last: number): boolean =>
    Math.abs(at - Math.round(at)) <= noise && at > -0.5 && at < last + 0.5;
  const [sw, se, nw] = corners as [GridCell, GridCell, GridCell];
  const isOne = (found: number, wanted: number): boolean => Math.abs(found - wanted) <= 2 * noise;
  const isUnturned =
    isOne(se[0] - sw[0], net.columns - 1) &&
    isOne(se[1], sw[1]) &&
    isOne(Math.abs(nw[1] - sw[1]), net.rows - 1) &&
    isOne(nw[0], sw[0]);
  return isUnturned && corners.every(([column, row]) => isOn(column, columns - 1) && isOn(row, rows - 1));
}

/** The columns and rows of the file under the net, a cell more on each side. */
function cutUnder({ columns, rows }: HeightSource, placed: Placed, net: PlainNet): Cut {
  let [west, east, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let k = 0; k <= LOOKS; k += 1) {
    for (let l = 0; l <= LOOKS; l += 1) {
      const [column, row] = placed.cellAt(
        net.westM + ((net.columns - 1) * net.cellM * k) / LOOKS,
        net.southM + ((net.rows - 1) * net.cellM * l) / LOOKS,
      );
      if (!Number.isFinite(column) || !Number.isFinite(row)) continue;
      west = Math.min(west, column);
      east = Math.max(east, column);
      top = Math.min(top, row);
      bottom = Math.max(bottom, row);
    }
  }
  const inside = (value: number, last: number): number => Math.min(last, Math.max(0, value));
  return {
    firstColumn: inside(Math.floor(west) - 2, columns - 1),
    lastColumn: inside(Math.ceil(east) + 2, columns - 1),
    firstRow: inside(Math.floor(top) - 2, rows - 1),
    lastRow: inside(Math.ceil(bottom) + 2, rows - 1),
  };
}

function tooManyWords({ columns, rows, cellM }: PlainNet, zero: string): string {
  const side = Math.floor(Math.sqrt(MOST_POINTS)) - 1;
  const reachM = Math.floor((side / 2) * cellM);
  const fewer = Math.max(Math.sqrt((columns * rows) / MOST_POINTS), Math.max(columns, rows) / MOST_A_SIDE);
  const apartM = Math.ceil(fewer * cellM * 1.01 * 10) / 10;
  return (
    `${columns} by ${rows} heights are too many: at most ${MOST_POINTS}, ${MOST_A_SIDE} a side. Take what lies within ` +
    `${reachM} m of ${zero}, or points at least ${rounded(apartM, 2, "up")} m apart.`
  );
}

function toStep(value: number, to: number): number {
  return Math.round(value / to) / Math.round(1 / to);
}

import { digits, rounded } from "../../words/index.ts";
import type { Laying } from "./laying.ts";
import type { HeightsTaken } from "./taking.ts";

/** What would be taken, before it is. */
export function layingWords(laying: Laying): string {
  return `${netWords(laying)} ${northWords(laying)}`;
}

/** What was taken, line by line, for people: each line one thing that can be wrong. */
export function takenWords(taken: HeightsTaken): string[] {
  const { laying, leastM, greatestM, landerM } = taken;
  const { cellM, columnM, rowM } = laying;
  const thinned = cellM > Math.min(columnM, rowM) * 1.001;
  const unit = taken.metresPerHeight === 1 ? "metres" : `${digits(taken.metresPerHeight, 6)} m`;
  const under =
    landerM === null
      ? `the height under ${laying.zero} is not known`
      : `${rounded(landerM, 2, "down")} m under ${laying.zero}, from which the plan counts`;
  const why = thinned
    ? `slopes shorter than ${rounded(cellM, 2, "up")} m are not seen, and ways are judged by gentler ones`
    : "between the file's points heights are bilinear, which cuts crests";
  return [
    netWords(laying),
    `Coordinates: ${taken.projectionWords}${taken.isLaidByHand ? "; how they lie was given by hand" : ""}.`,
    northWords(laying),
    `Unit: ${unit}, ${taken.isUnitByHand ? "given by hand" : "as the file says"}.`,
    `Least ${rounded(leastM, 2, "down")} m, greatest ${rounded(greatestM, 2, "up")} m; ${under}.`,
    `Unknown${taken.unknownPoints > 0 ? ", with what lies beyond the file's edges" : ""}: ${shareWords(taken.unknownPoints, taken.points)}.`,
    laying.isPointByPoint
      ? `Steepest slope between neighbours ${degrees(taken.steepestDeg)}.`
      : `Steepest slope between neighbours ${degrees(taken.fileSteepestDeg)} in the file, ${degrees(taken.steepestDeg)} ` +
        `as taken: ${why}.`,
    ...taken.notes,
  ];
}

function netWords({ zero, columns, rows, westM, southM, cellM }: Laying): string {
  // How far heights are known is never said to be farther.
  const to = (metres: number): string => `${rounded(metres, 2, "down")} m`;
  const sides = [
    `${to(-westM)} west`,
    `${to(westM + (columns - 1) * cellM)} east`,
    `${to(-southM)} south`,
    `${to(southM + (rows - 1) * cellM)} north`,
  ];
  return `${columns} by ${rows} heights, ${rounded(cellM, 2, "up")} m apart: ${sides.join(", ")} of ${zero}.`;
}

function northWords({ zero, upDeg, isMirrored, isPointByPoint }: Laying): string {
  const turn = Math.round((upDeg > 180 ? upDeg - 360 : upDeg) * 10) / 10;
  const lies =
    turn === 0
      ? "The file's first row lies to true north"
      : `The file's first row lies ${Math.abs(turn)} degrees ${turn > 0 ? "clockwise" : "anticlockwise"} of true north at ${zero}`;
  const mirrored = isMirrored ? " and, as it is stored, the ground is mirrored" : "";
  return `${lies}${mirrored}: ${isPointByPoint ? "taken point by point" : "laid on the plan's net to true north"}.`;
}

function shareWords(unknown: number, points: number): string {
  if (unknown === 0) return "none";
  const percent = (100 * unknown) / points;
  return `${unknown} of ${points} points, ${percent < 0.1 ? "under 0.1" : rounded(percent, 1, "up")} %`;
}

function degrees(value: number): string {
  return `${rounded(value, 1, "up")} degrees`;
}

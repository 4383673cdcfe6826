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
  const unit = taken.metresPerHeight === 1 ? "metres" : `${tidy(taken.metresPerHeight, 1e-4)} m`;
  const under =
    landerM === null
      ? "the height under the lander is not known"
      : `${tidy(landerM)} m under the lander, from which the plan counts`;
  const why = thinned
    ? `slopes shorter than ${tidy(cellM)} m are not seen, and ways are judged by gentler ones`
    : "between the file's points heights are bilinear, which cuts crests";
  return [
    netWords(laying),
    `Coordinates: ${taken.projectionWords}${taken.isLaidByHand ? "; how they lie was given by hand" : ""}.`,
    northWords(laying),
    `Unit: ${unit}, ${taken.isUnitByHand ? "given by hand" : "as the file says"}.`,
    `Least ${tidy(leastM)} m, greatest ${tidy(greatestM)} m; ${under}.`,
    `Unknown${taken.unknownPoints > 0 ? ", with what lies beyond the file's edges" : ""}: ${shareWords(taken.unknownPoints, taken.points)}.`,
    laying.isPointByPoint
      ? `Steepest slope between neighbours ${degrees(taken.steepestDeg)}.`
      : `Steepest slope between neighbours ${degrees(taken.fileSteepestDeg)} in the file, ${degrees(taken.steepestDeg)} ` +
        `as taken: ${why}.`,
    ...taken.notes,
  ];
}

function netWords({ columns, rows, westM, southM, cellM }: Laying): string {
  const sides = [
    `${tidy(-westM)} m west`,
    `${tidy(westM + (columns - 1) * cellM)} m east`,
    `${tidy(-southM)} m south`,
    `${tidy(southM + (rows - 1) * cellM)} m north`,
  ];
  return `${columns} by ${rows} heights, ${tidy(cellM)} m apart: ${sides.join(", ")} of the lander.`;
}

function northWords({ upDeg, isMirrored, isPointByPoint }: Laying): string {
  const turn = Math.round((upDeg > 180 ? upDeg - 360 : upDeg) * 10) / 10;
  const lies =
    turn === 0
      ? "The file's first row lies to true north"
      : `The file's first row lies ${Math.abs(turn)} degrees ${turn > 0 ? "clockwise" : "anticlockwise"} of true north at the lander`;
  const mirrored = isMirrored ? " and, as it is stored, the ground is mirrored" : "";
  return `${lies}${mirrored}: ${isPointByPoint ? "taken point by point" : "laid on the plan's net to true north"}.`;
}

function shareWords(unknown: number, points: number): string {
  if (unknown === 0) return "none";
  const percent = (100 * unknown) / points;
  return `${unknown} of ${points} points, ${percent < 0.1 ? "under 0.1" : tidy(percent, 0.1)} %`;
}

function degrees(value: number): string {
  return `${Math.ceil(value * 10) / 10} degrees`;
}

function tidy(value: number, to = 0.01): number {
  return Math.round(value / to) / Math.round(1 / to) + 0;
}

import { pulse, type Random, random } from "../kernel/index.ts";
import { APRON_RADII, craterHeightM, cratersPerM2 } from "../physics/index.ts";
import type { HeightGrid } from "./grid.ts";
import { addRolling } from "./rolling.ts";

/**
 * Ground made from a few numbers: rolling and cratered, the same for the same recipe on every machine.
 *
 * Sources: number, depth and shape of craters as physics/crater.ts, rolling as rolling.ts. How fresh a crater is:
 * from a quarter to wholly, small values more likely (project assumption; in equilibrium most craters are worn). Old
 * craters are made first. Heights are rounded to whole millimetres. Range: craters from three cells across up to the
 * largest asked for. Landforms asked for by the planner come last, craters shaped as all others, domes as
 * `domeHeightM`. Not covered: boulders, and everything smaller than a cell.
 */
export interface Recipe {
  readonly seed: number;
  readonly westM: number;
  readonly southM: number;
  readonly cellM: number;
  readonly columns: number;
  readonly rows: number;
  readonly roughnessM: number;
  readonly hurst: number;
  readonly cratered: number;
  readonly steepness: number;
  readonly largestM: number;
  /** What stands where the planner wants it. */
  readonly landforms?: readonly Landform[] | undefined;
}

/** A crater or dome at a given place. */
type Landform =
  | ({ readonly type: "crater" } & Crater)
  | {
      readonly type: "dome";
      readonly eastM: number;
      readonly northM: number;
      readonly diameterM: number;
      readonly heightM: number;
    };

/** A crater on made ground. */
export interface Crater {
  readonly eastM: number;
  readonly northM: number;
  readonly diameterM: number;
  /** 1 fresh, towards 0 worn away. */
  readonly freshness: number;
}

const SMALLEST_CELLS = 3;
const LEAST_FRESH = 0.25;

/** The heights of the recipe; the key is left to the caller. */
export function madeHeights(recipe: Recipe): Float64Array {
  const { columns, rows } = recipe;
  const heightM = new Float64Array(columns * rows);
  addRolling(heightM, columns, recipe.seed, recipe.roughnessM, recipe.hurst);
  for (const crater of cratersOf(recipe)) {
    pulse();
    dig(heightM, recipe, crater);
  }
  for (const form of recipe.landforms ?? []) {
    if (form.type === "crater") dig(heightM, recipe, form);
    else lay(heightM, recipe, form, form.diameterM / 2, (awayM) => domeHeightM(awayM, form));
  }
  for (let i = 0; i < heightM.length; i += 1) heightM[i] = Math.round(heightM[i]! * 1000) / 1000;
  return heightM;
}

/** The craters of the recipe, worn ones first: their number follows from area and density, the rest from the seed. */
export function cratersOf(recipe: Recipe): Crater[] {
  const { cellM, columns, rows, cratered, steepness, largestM } = recipe;
  const source = random(recipe.seed ^ 0x5eed);
  const leastM = SMALLEST_CELLS * cellM;
  if (leastM >= largestM) return [];
  const craters: Crater[] = [];
  // By halving sizes, so that the margin beyond the edge is as wide as these craters' aprons and no wider.
  for (let topM = largestM; topM > leastM; topM /= 2) {
    const lowM = Math.max(leastM, topM / 2);
    const marginM = (APRON_RADII / 2) * topM;
    const widthM = (columns - 1) * cellM + 2 * marginM;
    const depthM = (rows - 1) * cellM + 2 * marginM;
    const perM2 = cratersPerM2(lowM, cratered, steepness) - cratersPerM2(topM, cratered, steepness);
    const count = wholeNear(perM2 * widthM * depthM, source);
    for (let k = 0; k < count; k += 1) {
      const share = source.next();
      const diameterM =
        (lowM ** -steepness + (topM ** -steepness - lowM ** -steepness) * share) ** (-1 / steepness);
      craters.push({
        eastM: recipe.westM - marginM + source.next() * widthM,
        northM: recipe.southM - marginM + source.next() * depthM,
        diameterM,
        freshness: LEAST_FRESH + (1 - LEAST_FRESH) * source.next() ** 3,
      });
    }
  }
  return craters.sort((a, b) => a.freshness - b.freshness);
}

/** A whole number whose mean is `expected`. */
function wholeNear(expected: number, source: Random): number {
  return Math.floor(expected) + (source.next() < expected - Math.floor(expected) ? 1 : 0);
}

/** Height in m of a dome: level at the crown and at the foot, where it ends (project's own shape). */
function domeHeightM(awayM: number, dome: { readonly diameterM: number; readonly heightM: number }): number {
  const away = (2 * awayM) / dome.diameterM;
  return away >= 1 ? 0 : dome.heightM * (1 - away * away) ** 2;
}

type Net = Omit<HeightGrid, "key" | "heightM">;

function dig(heightM: Float64Array, grid: Net, crater: Crater): void {
  const { diameterM, freshness } = crater;
  lay(heightM, grid, crater, (APRON_RADII / 2) * diameterM, (awayM) =>
    craterHeightM(awayM, diameterM, freshness),
  );
}

/** Adds `heightAway` to all points within `reachM` of a middle. */
function lay(
  heightM: Float64Array,
  { cellM, columns, rows, westM, southM }: Net,
  middle: { readonly eastM: number; readonly northM: number },
  reachM: number,
  heightAway: (awayM: number) => number,
): void {
  const x = (middle.eastM - westM) / cellM;
  const y = (middle.northM - southM) / cellM;
  const cells = reachM / cellM;
  const top = Math.min(rows - 1, Math.floor(y + cells));
  const right = Math.min(columns - 1, Math.floor(x + cells));
  for (let row = Math.max(0, Math.ceil(y - cells)); row <= top; row += 1) {
    for (let column = Math.max(0, Math.ceil(x - cells)); column <= right; column += 1) {
      const awayM = Math.sqrt((row - y) ** 2 + (column - x) ** 2) * cellM;
      heightM[row * columns + column]! += heightAway(awayM);
    }
  }
}

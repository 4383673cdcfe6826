import type { HeightGrid } from "./grid.ts";
import { madeHeights, type Recipe } from "./made.ts";
import { memory } from "./remember.ts";

/** The plan's ground as it is stored: heights in rows of text, or the recipe of made ground. */
export type StoredGround = Laid &
  (({ readonly type: "grid" } & StoredHeights) | ({ readonly type: "made" } & Recipe));

interface Laid {
  readonly westM: number;
  readonly southM: number;
  readonly cellM: number;
  readonly columns: number;
  readonly rows: number;
}

interface StoredHeights {
  readonly unit: "mm" | "cm";
  /** Rows from north to south, whole numbers from west to east, "x" where unknown. */
  readonly heights: readonly string[];
}

const known = memory<HeightGrid>(3_000_000, (grid) => grid.heightM.length);
const seen = new WeakMap<StoredGround, HeightGrid>();

/** The height grid of the plan's ground. The same content gives the same grid, worked out once. */
export function reliefOf(ground: StoredGround): HeightGrid {
  let grid = seen.get(ground);
  if (!grid) {
    const key = keyOf(ground);
    grid = known.of(key, () => ({
      key,
      columns: ground.columns,
      rows: ground.rows,
      cellM: ground.cellM,
      westM: ground.westM,
      southM: ground.southM,
      heightM: ground.type === "made" ? madeHeights(ground) : readHeights(ground),
    }));
    seen.set(ground, grid);
  }
  return grid;
}

/** Remembers the grid of `ground` that was worked out elsewhere. */
export function takeRelief(ground: StoredGround, grid: HeightGrid): void {
  known.take([[grid.key, grid]]);
  seen.set(ground, grid);
}

function readHeights(ground: Laid & StoredHeights): Float64Array {
  const { columns, rows } = ground;
  const perMetre = ground.unit === "mm" ? 1000 : 100;
  const heightM = new Float64Array(columns * rows).fill(NaN);
  ground.heights.forEach((text, k) => {
    const base = (rows - 1 - k) * columns;
    text.split(" ").forEach((one, column) => {
      if (one !== "x") heightM[base + column] = Number(one) / perMetre;
    });
  });
  return heightM;
}

function keyOf(ground: StoredGround): string {
  const { westM, southM, cellM, columns, rows } = ground;
  const where = [westM, southM, cellM, columns, rows].join(" ");
  if (ground.type === "made") {
    const { seed, roughnessM, hurst, cratered, steepness, largestM } = ground;
    const forms = ground.landforms?.length ? ` ${JSON.stringify(ground.landforms)}` : "";
    return `made ${where} ${[seed, roughnessM, hurst, cratered, steepness, largestM].join(" ")}${forms}`;
  }
  return `grid ${where} ${ground.unit} ${digest(ground.heights)}`;
}

/** Two 32-bit FNV-1a sums (Fowler, Noll & Vo) of the text, from different starts. */
function digest(lines: readonly string[]): string {
  let a = 0x811c9dc5;
  let b = 0x01234567;
  for (const line of lines) {
    for (let i = 0; i < line.length; i += 1) {
      const code = line.charCodeAt(i);
      a = Math.imul(a ^ code, 0x01000193);
      b = Math.imul(b ^ code, 0x01000193) ^ (b >>> 15);
    }
    a = Math.imul(a ^ 10, 0x01000193);
    b = Math.imul(b ^ 10, 0x01000193);
  }
  return `${(a >>> 0).toString(16)}${(b >>> 0).toString(16)}`;
}

interface Step {
  readonly eastM: number;
  readonly northM: number;
}

/** Where the next column and the next row of a net lie from a point of it. */
export interface Nearby {
  readonly column: Step;
  readonly row: Step;
}

/**
 * The steepest slope, degrees, of the bilinear surface over a net whose points lie to each other as at the lander
 * everywhere; 0 where no four neighbours are known. On each cell it is looked for at the corners, where it is greatest.
 */
export function steepestDeg(heightM: Float64Array, width: number, { column, row }: Nearby): number {
  const size = column.eastM * row.northM - column.northM * row.eastM;
  let most = 0;
  for (let at = 0; at + width + 1 < heightM.length; at += 1) {
    if (at % width === width - 1) continue;
    const a = heightM[at]!;
    const b = heightM[at + 1]!;
    const c = heightM[at + width]!;
    const d = heightM[at + width + 1]!;
    if (Number.isNaN(a + b + c + d)) continue;
    for (const along of [b - a, d - c]) {
      for (const down of [c - a, d - b]) {
        const east = (along * row.northM - down * column.northM) / size;
        const north = (down * column.eastM - along * row.eastM) / size;
        most = Math.max(most, east * east + north * north);
      }
    }
  }
  return (Math.atan(Math.sqrt(most)) * 180) / Math.PI;
}

/** Heights as they lie in memory: row by row from the south. */
interface Heights {
  readonly columns: number;
  readonly rows: number;
  readonly cellM: number;
  readonly westM: number;
  readonly southM: number;
  readonly heightM: ArrayLike<number>;
}

/** An ESRI ASCII grid of `heights` to the millimetre, coordinates from the lander. */
export function asciiGrid({ columns, rows, cellM, westM, southM, heightM }: Heights): string {
  const lines = [
    `ncols ${columns}`,
    `nrows ${rows}`,
    `xllcenter ${westM}`,
    `yllcenter ${southM}`,
    `cellsize ${cellM}`,
    "nodata_value -99999",
  ];
  for (let row = rows - 1; row >= 0; row -= 1) {
    const line: string[] = [];
    for (let column = 0; column < columns; column += 1) {
      const height = heightM[row * columns + column]!;
      line.push(Number.isNaN(height) ? "-99999" : String(Math.round(height * 1000) / 1000 + 0));
    }
    lines.push(line.join(" "));
  }
  return `${lines.join("\n")}\n`;
}

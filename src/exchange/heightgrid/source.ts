/** Whole columns and rows of a file, ends included. */
export interface Cut {
  readonly firstColumn: number;
  readonly lastColumn: number;
  readonly firstRow: number;
  readonly lastRow: number;
}

/**
 * From the middle of the cell in column i, row j (as they lie in the file, from 0) to the file's coordinates:
 * `x = x0 + xByColumn i + xByRow j`, and y alike. Turned, mirrored, oblong and sheared nets are all of this form.
 */
export interface Net {
  readonly x0: number;
  readonly xByColumn: number;
  readonly xByRow: number;
  readonly y0: number;
  readonly yByColumn: number;
  readonly yByRow: number;
}

/** A file of heights as it is found, before anything is taken from it: what it says, and what it leaves open. */
export interface HeightSource {
  readonly name: string;
  readonly columns: number;
  readonly rows: number;
  readonly net: Net;
  /** The file's coordinates in PROJ's words; null where the file does not say, or says it by a number only. */
  readonly projection: string | null;
  /** What the file says of its coordinates, for people. */
  readonly projectionWords: string;
  /** Metres for one of its coordinates, used where it has no projection. */
  readonly metresPerCoordinate: number;
  /** Metres for one of its heights; null where the file does not say. */
  readonly metresPerHeight: number | null;
  /** The unit of its heights as the file has it, for people. */
  readonly unitWords: string;
  /** What else was found and is worth a word: a mask that was used, further bands that were not. */
  readonly notes: readonly string[];
  /** Heights of a part, row by row as they lie in the file, in the file's unit; NaN where the file knows none. */
  read(cut: Cut): Promise<Float64Array>;
}

/** A sheet of texts as a spreadsheet or a text file holds it: every row as long as it has cells, blank cells as "". */
export interface Sheet {
  readonly name: string;
  readonly rows: readonly (readonly string[])[];
}

/** A list longer or wider than this is refused: no plan holds as much. */
export const MOST_ROWS = 5000;
export const MOST_COLUMNS = 200;
/** A file larger than this is refused unread, bytes. */
export const LARGEST_LIST = 16 * 1024 * 1024;
/** Why a file beyond it cannot be read. */
export const TOO_LARGE = `it is larger than ${LARGEST_LIST / 1024 / 1024} MB`;
/** A cell's text is read so far. */
export const LONGEST_CELL = 4000;

/** Why a sheet of this size is refused; null where it is not. */
export function tooLarge(rows: number, columns: number): string | null {
  if (rows > MOST_ROWS) return `it has more than ${MOST_ROWS} rows`;
  return columns > MOST_COLUMNS ? `it has more than ${MOST_COLUMNS} columns` : null;
}

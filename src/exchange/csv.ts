/**
 * A table that says of which state of a plan it is: the last head says it, and no cell stands under it. So it is there even where no row is, programs that
 * go by heads never meet it, and a list read back has no cell there to take.
 */
export function statedCsv(
  state: string,
  heads: readonly string[],
  rows: readonly (readonly (string | number)[])[],
): string {
  return csvText([[...heads, `Plan: ${state}`], ...rows.map((row) => [...row, ""])]);
}

/** Rows as comma-separated values (RFC 4180: CRLF, quotes doubled). */
export function csvText(rows: readonly (readonly (string | number)[])[]): string {
  return rows.map((row) => `${row.map(field).join(",")}\r\n`).join("");
}

function field(value: string | number): string {
  if (typeof value === "number") return String(value);
  const safe = FORMULA.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/**
 * A table program would run a text that begins like a formula, some also behind blanks and some in full-width signs; a leading
 * apostrophe keeps it text. One more keeps a text that begins with an apostrophe before such a sign.
 */
const FORMULA = /^['\s]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r\n]/;

/** The text of a cell without the apostrophe that `csvText` puts before what looks like a formula. */
export function unguarded(cell: string): string {
  return cell.startsWith("'") && FORMULA.test(cell.slice(1)) ? cell.slice(1) : cell;
}

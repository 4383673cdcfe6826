/** Rows as comma-separated values (RFC 4180: CRLF, quotes doubled). */
export function csvText(rows: readonly (readonly (string | number)[])[]): string {
  return rows.map((row) => `${row.map(field).join(",")}\r\n`).join("");
}

function field(value: string | number): string {
  if (typeof value === "number") return String(value);
  // A table program would run a text that begins like a formula; a leading apostrophe keeps it text.
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/**
 * True when two values made of records, lists and plain values say the same. Records count by their keys, in whatever
 * order; a key that holds `undefined` is one that is not there.
 */
export function isEqual(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (Array.isArray(a)) {
    return Array.isArray(b) && a.length === b.length && a.every((one, i) => isEqual(one, b[i]));
  }
  if (!isRecord(a) || !isRecord(b)) return false;
  for (const key in a) if (!isEqual(a[key], b[key])) return false;
  for (const key in b) if (b[key] !== undefined && a[key] === undefined) return false;
  return true;
}

/** True for a group of named values: no list, not null. */
export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

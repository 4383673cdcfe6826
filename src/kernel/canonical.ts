/**
 * Data as the one JSON text that RFC 8785 (JSON Canonicalization Scheme, 2020) gives it: no blanks, fields by their UTF-16 units,
 * numbers and texts as ECMAScript writes them. What is `undefined` in a record is not there. Throws RangeError on what no JSON can
 * hold: a number that is none, a text with half a surrogate pair.
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(",")}]`;
  if (typeof value === "object" && value !== null) {
    // The sort without a comparison is by UTF-16 units, as the scheme asks for.
    const fields = Object.entries(value).filter(([, item]) => item !== undefined);
    const named = new Map(fields);
    return `{${[...named.keys()]
      .sort()
      .map((name) => `${canonicalJson(name)}:${canonicalJson(named.get(name))}`)
      .join(",")}}`;
  }
  if (typeof value === "number" && !Number.isFinite(value))
    throw new RangeError(`${value} is no number of JSON`);
  if (typeof value === "string" && /\p{Surrogate}/u.test(value))
    throw new RangeError("half a surrogate pair is no text of JSON");
  const text: string | undefined = JSON.stringify(value);
  if (text === undefined) throw new RangeError(`what is ${typeof value} is no value of JSON`);
  return text;
}

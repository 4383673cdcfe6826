import type { z } from "zod";

/**
 * What is wrong with a field, in words, where the schema has none of its own for it. Given to zod as the error map of
 * a parse, whose words yield to those that stand in the schema.
 */
export function faultWords(issue: z.core.$ZodRawIssue): string | undefined {
  switch (issue.code) {
    case "invalid_type":
      return issue.input === undefined ? "is missing" : `must be ${kindWords(String(issue.expected))}`;
    case "invalid_value":
      return issue.input === undefined ? "is missing" : `must be ${oneOf(issue.values)}`;
    case "invalid_union":
      return unionWords(issue);
    case "invalid_key":
      return "is called by a name that is none: use lower-case letters, digits and single hyphens";
    case "too_big":
      return `must be at most ${sizeWords(issue.origin, Number(issue.maximum))}`;
    case "too_small":
      return `must be at least ${sizeWords(issue.origin, Number(issue.minimum))}`;
    default:
      return undefined;
  }
}

/** The names allowed for a field with several forms; zod reports the form itself when only one comes near. */
function unionWords(issue: Extract<z.core.$ZodRawIssue, { code: "invalid_union" }>): string {
  if (issue.input === undefined) return "is missing";
  if (Array.isArray(issue["options"])) return `must be ${oneOf(issue["options"])}`;
  const names = issue.errors.flat().flatMap((one) => (one.code === "invalid_value" ? one.values : []));
  return names.length > 0
    ? `must be ${oneOf(names)}, or the longer form`
    : "must be one of the forms this field has";
}

function oneOf(values: readonly unknown[]): string {
  const shown = values.map((value) => JSON.stringify(value));
  return shown.length === 1 ? shown[0]! : `one of ${shown.join(", ")}`;
}

function kindWords(expected: string): string {
  const known: Readonly<Record<string, string>> = {
    object: "a group of fields",
    record: "a group of names",
    array: "a list",
    string: "a text",
    number: "a number",
    int: "a whole number",
    boolean: "true or false",
    tuple: "a list of two",
  };
  return known[expected] ?? expected;
}

function sizeWords(origin: string, size: number): string {
  if (origin === "array") return `${size} ${size === 1 ? "entry" : "entries"} long`;
  if (origin === "string") return `${size} characters long`;
  return String(size);
}

import { isRecord } from "../../kernel/index.ts";
import type { Change, Patch } from "./patch.ts";

/** Where ids stand in a plan: names of fields, `*` for any entry of a list or record, `@` for the keys of a record. */
export type Pattern = readonly string[];
export type Rename = (id: string) => string;

/** `value` with another name for every text at `pattern`. */
export function renamedAt(value: unknown, pattern: Pattern, rename: Rename): unknown {
  const [step, ...rest] = pattern;
  if (step === undefined) return typeof value === "string" ? rename(value) : value;
  if (Array.isArray(value)) return step === "*" ? value.map((one) => renamedAt(one, rest, rename)) : value;
  if (!isRecord(value)) return value;
  if (step === "@") return Object.fromEntries(Object.entries(value).map(([key, to]) => [rename(key), to]));
  if (step === "*")
    return Object.fromEntries(Object.entries(value).map(([key, to]) => [key, renamedAt(to, rest, rename)]));
  return step in value ? { ...value, [step]: renamedAt(value[step], rest, rename) } : value;
}

/**
 * A patch with another name for the ids at `patterns` of the plan that it is made on: in the values of its changes, and in their paths
 * where an item is known by such an id.
 */
export function renamedPatch(patch: Patch, patterns: readonly Pattern[], rename: Rename): Patch {
  return patch.map(({ path, ...values }): Change => {
    const isOrder = path.at(-1)!.startsWith(">");
    const renamed = (value: unknown): unknown => {
      if (!isOrder)
        return patterns
          .filter((pattern) => path.length <= pattern.length && covers(pattern, path))
          .reduce((one, pattern) => renamedAt(one, pattern.slice(path.length), rename), value);
      const isKey = typeof value === "string" && isKeyedBy(patterns, path.slice(0, -1));
      return isKey ? inKey(value, rename) : value;
    };
    return {
      path: path.map((step, k) => inStep(step, path.slice(0, k), patterns, rename)),
      ...("from" in values ? { from: renamed(values.from) } : {}),
      ...("to" in values ? { to: renamed(values.to) } : {}),
    };
  });
}

function inStep(
  step: string,
  before: readonly string[],
  patterns: readonly Pattern[],
  rename: Rename,
): string {
  if (/^[#>]/.test(step))
    return isKeyedBy(patterns, before) ? `${step[0]}${inKey(step.slice(1), rename)}` : step;
  const isKey = patterns.some((pattern) => pattern[before.length] === "@" && covers(pattern, before));
  return isKey ? rename(step) : step;
}

/** True where the items of the list at `path` are known by such ids (`keyed`). */
function isKeyedBy(patterns: readonly Pattern[], path: readonly string[]): boolean {
  return patterns.some(
    (pattern) =>
      pattern.length === path.length + 2 &&
      pattern[path.length] === "*" &&
      KEYS.has(pattern[path.length + 1]!) &&
      covers(pattern, path),
  );
}

const KEYS: ReadonlySet<string> = new Set(["id", "task", "from", "to"]);

/** A key in which every id has its other name; that of a leg has two. */
function inKey(key: string, rename: Rename): string {
  return key.split(">").map(rename).join(">");
}

function covers(pattern: Pattern, path: readonly string[]): boolean {
  return path.every((step, k) => pattern[k] === step || pattern[k] === "*" || pattern[k] === "@");
}

import { type BranchKey, editBetween, type Plan } from "../plan/index.ts";

/**
 * What a variant changes of the plan beside its schedule, kept as small as it is: each changed value by its path, with
 * what stood there. So it still applies after other things of the plan have changed, and says where it no longer does.
 */

/** One changed value. A step of the path is a key, or `#id` of an item in a list; `undefined` is "not there". */
export interface PlanChange {
  readonly path: readonly string[];
  readonly from: unknown;
  readonly to: unknown;
}

/** The plan with changes made on it, and those that no longer apply because the plan has another value there by now. */
export interface Changed {
  /** Only the branches that differ. */
  readonly parts: Partial<Plan>;
  readonly clashes: readonly PlanChange[];
}

/** Never part of a change: they are the variants themselves, and the words on the plan. */
const APART: readonly BranchKey[] = ["schedule", "variants", "title", "notes"];

/** What turns `before` into `after`, schedule, variants and words apart. */
export function changesBetween(before: Plan, after: Plan): readonly PlanChange[] {
  return editBetween("", before, after).changes.flatMap((one) =>
    APART.includes(one.key) ? [] : differences(one.before, one.after, [one.key]),
  );
}

/** `changes` made on `plan`; a value that already is what it should be is no clash. */
export function withChanges(plan: Plan, changes: readonly PlanChange[]): Changed {
  const parts: Record<string, unknown> = {};
  const clashes: PlanChange[] = [];
  for (const change of changes) {
    const [key, ...rest] = change.path;
    if (key === undefined) continue;
    const branch = key in parts ? parts[key] : plan[key as BranchKey];
    const there = valueAt(branch, rest);
    if (alike(there, change.to)) continue;
    if (alike(there, change.from)) parts[key] = put(branch, rest, change.to);
    else clashes.push(change);
  }
  return { parts: parts as Partial<Plan>, clashes };
}

/** Changes as they lie in a store, of which anything may be true; null when they are none. */
export function readChanges(found: unknown): readonly PlanChange[] | null {
  if (!Array.isArray(found)) return null;
  const sound = found.every(
    (one: unknown) =>
      isRecord(one) &&
      Array.isArray(one["path"]) &&
      one["path"].length > 0 &&
      one["path"].every((step: unknown) => typeof step === "string"),
  );
  return sound ? (found as readonly PlanChange[]) : null;
}

function differences(a: unknown, b: unknown, path: readonly string[]): readonly PlanChange[] {
  if (alike(a, b)) return [];
  if (isListed(a) && isListed(b)) {
    const ids = [...new Set([...a, ...b].map((item) => item.id))];
    const of = (list: readonly Item[], id: string): Item | undefined => list.find((item) => item.id === id);
    return ids.flatMap((id) => differences(of(a, id), of(b, id), [...path, `#${id}`]));
  }
  if (isRecord(a) && isRecord(b)) {
    const keys = [...new Set([...Object.keys(a), ...Object.keys(b)])];
    return keys.flatMap((key) => differences(a[key], b[key], [...path, key]));
  }
  return [{ path, from: a, to: b }];
}

function valueAt(value: unknown, path: readonly string[]): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (isListed(value))
    return valueAt(
      value.find((item) => `#${item.id}` === step),
      rest,
    );
  return isRecord(value) ? valueAt(value[step], rest) : undefined;
}

function put(value: unknown, path: readonly string[], to: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return to;
  if (isListed(value)) {
    const known = value.some((item) => `#${item.id}` === step);
    const next = known
      ? value.map((item) => (`#${item.id}` === step ? put(item, rest, to) : item))
      : [...value, put(undefined, rest, to)];
    return next.filter((item) => item !== undefined);
  }
  const { [step]: old, ...others } = isRecord(value) ? value : {};
  const next = put(old, rest, to);
  return next === undefined ? others : { ...others, [step]: next };
}

interface Item {
  readonly id: string;
}

/** A list whose items are told apart by their ids. */
function isListed(value: unknown): value is readonly Item[] {
  return (
    Array.isArray(value) && value.every((item: unknown) => isRecord(item) && typeof item["id"] === "string")
  );
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function alike(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (Array.isArray(a) && Array.isArray(b))
    return a.length === b.length && a.every((one, i) => alike(one, b[i]));
  if (!isRecord(a) || !isRecord(b)) return false;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].every((key) => alike(a[key], b[key]));
}

import { isEqual, isRecord } from "../../kernel/index.ts";
import { followers, HEAD, keyed } from "./keyed.ts";
import type { Change } from "./patch.ts";
import { changesIn, type Tree } from "./tree.ts";

/**
 * `value` with those changes of `tree` made on it that still mean what they did, though other things may have changed since:
 * what stands there already is done, and an item finds a place beside the neighbour it was given. All others go into `clashes`.
 */
export function fitted(value: unknown, tree: Tree, clashes: Change[]): unknown {
  if (tree.own) {
    const { from, to } = tree.own;
    if (isEqual(value, from)) return to;
    if (!isEqual(value, to)) clashes.push(tree.own);
    return value;
  }
  const items = keyed(value);
  if (items) return inList(items, tree, clashes);
  if (isRecord(value)) return inRecord(value, tree, clashes);
  clashes.push(...changesIn(tree).filter(({ to }) => to !== undefined));
  return value;
}

function inRecord(record: Readonly<Record<string, unknown>>, tree: Tree, clashes: Change[]): unknown {
  const made: Record<string, unknown> = { ...record };
  for (const [key, inner] of tree.inner) made[key] = fitted(record[key], inner, clashes);
  return made;
}

function inList(items: ReadonlyMap<string, unknown>, tree: Tree, clashes: Change[]): unknown {
  const made = new Map(items);
  const wanted = new Map<string, unknown>();
  for (const [step, inner] of tree.inner) {
    const key = step.slice(1);
    if (step.startsWith("#")) {
      const item = fitted(items.get(key), inner, clashes);
      if (item === undefined) made.delete(key);
      else made.set(key, item);
    } else wanted.set(key, inner.own?.to);
  }
  const order = orderWanted([...made.keys()], items, wanted) ?? orderBeside([...made.keys()], items, wanted);
  return order.map((key) => made.get(key));
}

/** `keys` with what is wanted to come next where that is said; null when that is no order of all of them. */
function orderWanted(
  keys: readonly string[],
  known: ReadonlyMap<string, unknown>,
  wanted: ReadonlyMap<string, unknown>,
): readonly string[] | null {
  const there = new Set([HEAD, ...keys]);
  const next = followers(keys.filter((key) => known.has(key)));
  for (const [key, follower] of wanted) {
    if (there.has(key) && (typeof follower === "string" || follower === null)) next.set(key, follower);
  }
  const list: string[] = [];
  for (let key = next.get(HEAD); typeof key === "string" && list.length < keys.length; key = next.get(key))
    list.push(key);
  return new Set(list).size === keys.length && next.get(list.at(-1) ?? HEAD) === null ? list : null;
}

/** `keys` as they stand, those that are new each behind the neighbour that it was given, where that one is there. */
function orderBeside(
  keys: readonly string[],
  known: ReadonlyMap<string, unknown>,
  wanted: ReadonlyMap<string, unknown>,
): readonly string[] {
  const behind = new Map<string, string[]>();
  const ahead = new Map([...wanted].map(([key, follower]) => [follower, key]));
  const last = keys.filter((key) => known.has(key)).at(-1) ?? HEAD;
  const there = new Set([HEAD, ...keys]);
  for (const key of keys) {
    if (known.has(key)) continue;
    const neighbour = ahead.get(key);
    const stem = neighbour === undefined || !there.has(neighbour) ? last : neighbour;
    behind.set(stem, [...(behind.get(stem) ?? []), key]);
  }
  const list: string[] = [];
  const waiting = [...(behind.get(HEAD) ?? []), ...keys.filter((key) => known.has(key))].toReversed();
  for (let key = waiting.pop(); key !== undefined; key = waiting.pop()) {
    list.push(key);
    waiting.push(...(behind.get(key) ?? []).toReversed());
  }
  // A patch from outside may put two behind each other; they are not lost for that.
  const listed = new Set(list);
  return [...list, ...keys.filter((key) => !listed.has(key))];
}

import { isRecord } from "../../kernel/index.ts";

/** What an item of a list is known by: its id, the task of a placement, the two ends of a traverse leg; null when by nothing. */
function keyOf(item: unknown): string | null {
  if (!isRecord(item)) return null;
  const { id, task, from, to } = item;
  if (typeof id === "string") return id;
  if (typeof task === "string") return task;
  return typeof from === "string" && typeof to === "string" ? `${from}>${to}` : null;
}

/** The items of a list by their keys, in its order; null when it is no list, or its items are not told apart by keys. */
export function keyed(value: unknown): ReadonlyMap<string, unknown> | null {
  if (!Array.isArray(value)) return null;
  const items = new Map<string, unknown>();
  for (const item of value as readonly unknown[]) {
    const key = keyOf(item);
    if (key === null || items.has(key)) return null;
    items.set(key, item);
  }
  return items;
}

/** Stands for the place before the first item. */
export const HEAD = "";

/** By each key, and HEAD, what comes next: a key, or null behind the last. */
export function followers(keys: Iterable<string>): Map<string, string | null> {
  const next = new Map<string, string | null>();
  let last = HEAD;
  for (const key of keys) {
    next.set(last, key);
    last = key;
  }
  return next.set(last, null);
}

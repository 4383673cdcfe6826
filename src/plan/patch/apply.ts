import { isEqual, isRecord } from "../../kernel/index.ts";
import { inFieldOrder } from "../fieldorder.ts";
import { followers, HEAD, keyed } from "./keyed.ts";
import { type Tree, Unfit } from "./tree.ts";

/**
 * `value` with the changes of `tree` made on it; what they leave alone stays the same object. Throws Unfit, and has done
 * nothing, where a change is not about what stands there.
 */
export function applied(value: unknown, tree: Tree): unknown {
  if (tree.own) {
    if (!isEqual(value, tree.own.from)) throw new Unfit("other value", tree.path);
    return tree.own.to;
  }
  if (tree.inner.size === 0) return value;
  const items = keyed(value);
  if (items) return inList(items, tree);
  if (isRecord(value)) return inRecord(value, tree);
  throw new Unfit("not there", tree.path);
}

function inRecord(record: Readonly<Record<string, unknown>>, tree: Tree): unknown {
  const made: Record<string, unknown> = { ...record };
  let added = false;
  for (const [key, inner] of tree.inner) {
    const next = applied(record[key], inner);
    if (next === undefined) delete made[key];
    else {
      added ||= !(key in made);
      made[key] = next;
    }
  }
  // A field that was not there gets the place it has in every file, so that undoing its removal gives the same text.
  return added ? inFieldOrder(tree.path, made) : made;
}

function inList(items: ReadonlyMap<string, unknown>, tree: Tree): unknown {
  const made = new Map(items);
  const next = followers(items.keys());
  let order = false;
  for (const [step, inner] of tree.inner) {
    const key = step.slice(1);
    if (step.startsWith("#")) {
      const item = applied(items.get(key), inner);
      order ||= item === undefined || !items.has(key);
      if (item === undefined) made.delete(key);
      else made.set(key, item);
    } else {
      order = true;
      follow(next, key, step.startsWith(">") ? applied(next.get(key), inner) : undefined, inner);
    }
  }
  return order ? chain(made, next, tree) : [...made.values()];
}

/** Lets `follower` come after `key`, or nothing where it is undefined. */
function follow(next: Map<string, string | null>, key: string, follower: unknown, { path }: Tree): void {
  if (follower === undefined) next.delete(key);
  else if (follower === null || typeof follower === "string") next.set(key, follower);
  else throw new Unfit("malformed", path);
}

/** The items one after the other as `next` says; every item once, or they do not fit. */
function chain(
  items: ReadonlyMap<string, unknown>,
  next: ReadonlyMap<string, string | null>,
  { path }: Tree,
): readonly unknown[] {
  const list: unknown[] = [];
  for (let key = next.get(HEAD); key !== null; key = next.get(key)) {
    const item = key === undefined ? undefined : items.get(key);
    if (item === undefined || list.length === items.size) throw new Unfit("order", path);
    list.push(item);
    if (key === undefined) break;
  }
  if (list.length !== items.size || next.size !== items.size + 1) throw new Unfit("order", path);
  return list;
}

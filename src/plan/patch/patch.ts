import { isEqual } from "../../kernel/index.ts";

/**
 * A patch says what differs between two plans, value by value: where, what stood there and what stands there now. It is
 * plain data, no larger than what differs, and goes by value: it can be written, sent, taken back and put together.
 *
 * A step of a path is a field's name, `#key` of an item in a list, or `>key` for what comes next after that item (`>` for
 * what comes first). So order is kept without positions: an item put into a list changes two places, itself and what its
 * neighbour is followed by. Lists whose items have no key of their own (`keyed`) are one value.
 *
 * A patch is in its one shortest form, sorted by path: the same two plans have the same patch, whichever way it was made.
 */
export interface Change {
  readonly path: readonly string[];
  /** What stood there; missing where nothing did. */
  readonly from?: unknown;
  /** What stands there now; missing where nothing does. */
  readonly to?: unknown;
}

export type Patch = readonly Change[];

/** Why a patch cannot be made on a value, and where. */
export interface Misfit {
  /**
   * other value: something else stands there than the patch was made on. not there: the thing that a change lies in is gone.
   * order: the items cannot stand in the order asked for. malformed: two changes of the patch are about the same thing.
   */
  readonly reason: "other value" | "not there" | "order" | "malformed";
  readonly path: readonly string[];
}

/** The patch that takes this one back. */
export function invertPatch(patch: Patch): Patch {
  return patch.map(({ path, from, to }) => changed(path, to, from));
}

/** One change; what is `undefined` is not there. */
export function changed(path: readonly string[], from: unknown, to: unknown): Change {
  return { path, ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) };
}

/** Changes in the order of their paths, those that change nothing left out. */
export function tidy(changes: readonly Change[]): Patch {
  return changes
    .filter(({ from, to }) => !isEqual(from, to))
    .toSorted((a, b) => comparePaths(a.path, b.path));
}

function comparePaths(a: readonly string[], b: readonly string[]): number {
  const at = a.findIndex((step, i) => step !== b[i]);
  const [one, other] = [a[at], b[at]];
  if (one === undefined) return a.length - b.length;
  return other === undefined || one > other ? 1 : -1;
}

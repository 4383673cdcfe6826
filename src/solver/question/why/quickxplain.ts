/** Answers, in slices, whether a part conflicts. */
export type Conflicts<T> = (part: readonly T[]) => Generator<void, boolean>;

/**
 * A minimal part of `all` that stands against itself, by divide and conquer (Junker 2004, QuickXplain, AAAI 19:167-172). Given
 * that the whole of it does, as `conflicts` says of any part; a part of what does not conflict must not conflict either. Earlier
 * members are preferred. About `2 k log(n / k) + 2 k` questions for `k` of `n`.
 */
export function* quickXplain<T>(all: readonly T[], conflicts: Conflicts<T>): Generator<void, readonly T[]> {
  if (yield* conflicts([])) return [];
  return yield* within([], false, all, conflicts);
}

function* within<T>(
  behind: readonly T[],
  grown: boolean,
  list: readonly T[],
  conflicts: Conflicts<T>,
): Generator<void, readonly T[]> {
  if (grown && (yield* conflicts(behind))) return [];
  if (list.length <= 1) return list;
  const half = Math.ceil(list.length / 2);
  const first = list.slice(0, half);
  const second = yield* within([...behind, ...first], true, list.slice(half), conflicts);
  const rest = yield* within([...behind, ...second], second.length > 0, first, conflicts);
  return [...rest, ...second];
}

import { isEqual, isRecord } from "../../kernel/index.ts";
import { followers, keyed } from "./keyed.ts";
import { type Change, changed, type Patch, tidy } from "./patch.ts";

/** The patch that turns `before` into `after`; `path` is where the two stand. What is the same object is not looked into. */
export function between(before: unknown, after: unknown, path: readonly string[] = []): Patch {
  return tidy(differences(before, after, path));
}

function differences(before: unknown, after: unknown, path: readonly string[]): readonly Change[] {
  if (before === after) return [];
  const [were, are] = [keyed(before), keyed(after)];
  if (were && are) {
    const items = both(were.keys(), are.keys()).flatMap((key) =>
      differences(were.get(key), are.get(key), [...path, `#${key}`]),
    );
    return [...items, ...reordered([...were.keys()], [...are.keys()], path)];
  }
  if (isRecord(before) && isRecord(after)) {
    return both(Object.keys(before), Object.keys(after)).flatMap((key) =>
      differences(before[key], after[key], [...path, key]),
    );
  }
  return isEqual(before, after) ? [] : [changed(path, before, after)];
}

function reordered(
  were: readonly string[],
  are: readonly string[],
  path: readonly string[],
): readonly Change[] {
  if (isEqual(were, are)) return [];
  const [before, after] = [followers(were), followers(are)];
  return both(before.keys(), after.keys()).flatMap((key) => {
    const [from, to] = [before.get(key), after.get(key)];
    return from === to ? [] : [changed([...path, `>${key}`], from, to)];
  });
}

function both(a: Iterable<string>, b: Iterable<string>): string[] {
  return [...new Set([...a, ...b])];
}

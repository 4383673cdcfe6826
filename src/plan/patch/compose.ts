import { isEqual } from "../../kernel/index.ts";
import { applied } from "./apply.ts";
import { between } from "./between.ts";
import { type Change, invertPatch, type Patch, tidy } from "./patch.ts";
import { changesIn, type Tree, treeOf, Unfit } from "./tree.ts";

/** What does `first` and then `second`, in the shortest form. Throws Unfit where the second was not made on what the first left. */
export function composed(first: Patch, second: Patch): Patch {
  return tidy(merged(treeOf(first), treeOf(second)));
}

function merged(first: Tree, second: Tree): readonly Change[] {
  const { path } = first;
  if (first.own && second.own && !isEqual(first.own.to, second.own.from))
    throw new Unfit("other value", path);
  if (first.own)
    return between(first.own.from, second.own ? second.own.to : applied(first.own.to, second), path);
  if (second.own) return between(applied(second.own.from, undoing(first)), second.own.to, path);
  return [...new Set([...first.inner.keys(), ...second.inner.keys()])].flatMap((step) => {
    const [one, other] = [first.inner.get(step), second.inner.get(step)];
    if (one && other) return merged(one, other);
    return changesIn(one ?? other ?? first);
  });
}

/** What takes the changes of `tree` back, at the same place. */
function undoing(tree: Tree): Tree {
  let at = treeOf(invertPatch(changesIn(tree)));
  for (const step of tree.path) at = at.inner.get(step) ?? at;
  return at;
}

import type { Change, Misfit, Patch } from "./patch.ts";

/** The changes of a patch by the steps of their paths: a change here, or changes further in. */
export interface Tree {
  readonly path: readonly string[];
  own: Change | null;
  readonly inner: Map<string, Tree>;
}

/** Thrown inside this folder only; whoever calls it gets the misfit as an outcome. */
export class Unfit extends Error {
  readonly misfit: Misfit;
  constructor(reason: Misfit["reason"], path: readonly string[]) {
    super(`${reason} at ${path.join(" ")}`);
    this.misfit = { reason, path };
  }
}

/** Throws Unfit for a patch in which a change lies inside another. */
export function treeOf(patch: Patch): Tree {
  const root = branch([]);
  for (const change of patch) {
    let at = root;
    for (const step of change.path) {
      if (at.own) throw new Unfit("malformed", change.path);
      const next: Tree = at.inner.get(step) ?? branch([...at.path, step]);
      at.inner.set(step, next);
      at = next;
    }
    if (at.own || at.inner.size > 0) throw new Unfit("malformed", change.path);
    at.own = change;
  }
  return root;
}

/** Every change of a tree. */
export function changesIn(tree: Tree): readonly Change[] {
  return tree.own ? [tree.own] : [...tree.inner.values()].flatMap(changesIn);
}

function branch(path: readonly string[]): Tree {
  return { path, own: null, inner: new Map() };
}

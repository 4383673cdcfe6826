import type { Slab } from "./shape.ts";

/** A box drawn on screen, from where the pointer went down to where it is. Pixels. */
export interface Lasso {
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
}

/** The items any part of which the lasso touches, in their order. */
export function lassoed<Item>(
  items: readonly Item[],
  slab: (item: Item) => Slab | null,
  lasso: Lasso,
): readonly Item[] {
  const left = Math.min(lasso.from.x, lasso.to.x);
  const right = Math.max(lasso.from.x, lasso.to.x);
  const top = Math.min(lasso.from.y, lasso.to.y);
  const bottom = Math.max(lasso.from.y, lasso.to.y);
  return items.filter((item) => {
    const one = slab(item);
    if (!one || one.right < left || one.left > right) return false;
    const high = Math.min(one.topLeft, one.topRight);
    const low = Math.max(one.bottomLeft, one.bottomRight);
    return low >= top && high <= bottom;
  });
}

/** A selection after a click on `task`: alone, or with `more` added when it was not in and taken out when it was. */
export function clicked(selection: readonly string[], task: string, more: boolean): readonly string[] {
  if (!more) return [task];
  return selection.includes(task) ? selection.filter((one) => one !== task) : [...selection, task];
}

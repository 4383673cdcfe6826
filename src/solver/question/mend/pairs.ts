/** Every two of a list, in its order. */
export function* pairsOf<Item>(list: readonly Item[]): Generator<readonly [Item, Item], void> {
  for (const [k, one] of list.entries()) for (const other of list.slice(k + 1)) yield [one, other];
}

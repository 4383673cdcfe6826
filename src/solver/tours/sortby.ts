/** Sorts the first `count` of `order` by `key`, low ones first (Shell 1959): no closure is made and no list copied. */
export function sortBy(order: Int32Array, key: Float64Array, count: number): void {
  for (const gap of GAPS) {
    for (let k = gap; k < count; k += 1) {
      const a = order[k]!;
      const value = key[a]!;
      let at = k;
      for (; at >= gap && key[order[at - gap]!]! > value; at -= gap) order[at] = order[at - gap]!;
      order[at] = a;
    }
  }
}

/** Ciura 2001, Lecture Notes in Computer Science 2138:106. */
const GAPS = [701, 301, 132, 57, 23, 10, 4, 1];

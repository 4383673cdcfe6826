/**
 * Rearranges `list` so that at each of the ascending `ranks` stands what would stand there if it were sorted, with nothing greater
 * before it and nothing less after it. About linear in the length of the list (Hoare 1961, Communications of the ACM 4:321).
 */
export function partlySort(list: Float32Array, ranks: readonly number[]): void {
  sortPart(list, ranks, 0, list.length - 1);
}

function sortPart(list: Float32Array, ranks: readonly number[], from: number, to: number): void {
  let low = from;
  const high = to;
  for (;;) {
    const inside = ranks.filter((rank) => rank >= low && rank <= high);
    if (inside.length === 0 || low >= high) return;
    const pivot = middleOf(list[low]!, list[(low + high) >> 1]!, list[high]!);
    let i = low;
    let j = high;
    while (i <= j) {
      while (list[i]! < pivot) i += 1;
      while (list[j]! > pivot) j -= 1;
      if (i > j) break;
      const one = list[i]!;
      list[i] = list[j]!;
      list[j] = one;
      i += 1;
      j -= 1;
    }
    // Between j and i all are the pivot.
    sortPart(list, inside, low, j);
    ranks = inside;
    low = i;
  }
}

function middleOf(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

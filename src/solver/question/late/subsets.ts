/**
 * Subsets of items by ascending sum of costs, the empty one first. `costs` must be ascending and not negative. Each
 * subset is a list of item numbers, ascending. Classic enumeration with a heap: from a set whose last item is i come the set
 * with i + 1 added and the set with i exchanged for i + 1.
 */
export function* subsetsByCost(
  costs: readonly number[],
): Generator<{ readonly cost: number; readonly items: readonly number[] }> {
  yield { cost: 0, items: [] };
  if (costs.length === 0) return;
  const heap: Entry[] = [{ cost: costs[0]!, items: [0] }];
  while (heap.length > 0) {
    const least = pop(heap);
    yield least;
    const last = least.items.at(-1)!;
    if (last + 1 >= costs.length) continue;
    const next = costs[last + 1]!;
    push(heap, { cost: least.cost + next, items: [...least.items, last + 1] });
    push(heap, { cost: least.cost - costs[last]! + next, items: [...least.items.slice(0, -1), last + 1] });
  }
}

interface Entry {
  readonly cost: number;
  readonly items: readonly number[];
}

function push(heap: Entry[], entry: Entry): void {
  let at = heap.length;
  heap.push(entry);
  while (at > 0) {
    const up = (at - 1) >> 1;
    if (heap[up]!.cost <= entry.cost) break;
    heap[at] = heap[up]!;
    at = up;
  }
  heap[at] = entry;
}

function pop(heap: Entry[]): Entry {
  const least = heap[0]!;
  const moved = heap.pop()!;
  if (heap.length === 0) return least;
  let at = 0;
  for (;;) {
    let down = 2 * at + 1;
    if (down >= heap.length) break;
    if (down + 1 < heap.length && heap[down + 1]!.cost < heap[down]!.cost) down += 1;
    if (heap[down]!.cost >= moved.cost) break;
    heap[at] = heap[down]!;
    at = down;
  }
  heap[at] = moved;
  return least;
}

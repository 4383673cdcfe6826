/** A vertex of an orienteering instance: where, how long a visit is, what it scores, and between when it may begin. */
interface Vertex {
  readonly x: number;
  readonly y: number;
  readonly visit: number;
  readonly score: number;
  readonly opens: number;
  readonly closes: number;
}

/**
 * Goes tours over an instance as its format says it, with nothing of the product: from vertex 0 and back to it by its closing time, each visit
 * begun inside its window, waiting free, no vertex twice, distances Euclidean and cut after `decimals` decimals, scores added up. Arithmetic in whole units of
 * the last decimal. Gives the score and the faults in words, one a fault.
 */
export function checkTours(
  instance: string,
  decimals: number,
  tours: readonly (readonly number[])[],
): { readonly score: number; readonly faults: readonly string[] } {
  const unit = 10 ** decimals;
  const vertices = verticesOf(instance);
  const whole = (value: number): number => Math.round(value * unit);
  const way = (from: Vertex, to: Vertex): number =>
    Math.floor(Math.hypot(from.x - to.x, from.y - to.y) * unit + 1e-9);
  const [depot] = vertices;
  if (!depot) return { score: 0, faults: ["the instance has no vertex"] };
  const faults: string[] = [];
  const seen = new Set<number>();
  let score = 0;
  tours.forEach((tour, t) => {
    let at = depot;
    let now = whole(depot.opens);
    for (const i of tour) {
      const next = i > 0 ? vertices[i] : undefined;
      if (!next) {
        faults.push(`tour ${t + 1}: there is no vertex ${i} to visit`);
        continue;
      }
      if (seen.has(i)) faults.push(`tour ${t + 1}: vertex ${i} is visited twice`);
      seen.add(i);
      now = Math.max(now + way(at, next), whole(next.opens));
      if (now > whole(next.closes)) faults.push(`tour ${t + 1}: vertex ${i} begins after it closes`);
      now += whole(next.visit);
      score += next.score;
      at = next;
    }
    if (now + way(at, depot) > whole(depot.closes)) faults.push(`tour ${t + 1}: back after the depot closes`);
  });
  return { score, faults };
}

/** The vertices of an instance's text: number, x, y, visit, score, ..., opens, closes; two lines of other numbers come first. */
function verticesOf(instance: string): Vertex[] {
  const rows = instance
    .split("\n")
    .map((line) => line.trim().split(/\s+/).map(Number))
    .filter((row) => row.length >= 7);
  return rows.map((row) => ({
    x: row[1]!,
    y: row[2]!,
    visit: row[3]!,
    score: row[4]!,
    opens: row.at(-2)!,
    closes: row.at(-1)!,
  }));
}

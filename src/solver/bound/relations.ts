import type { Problem } from "../problem/problem.ts";

/** What holds for activities together whatever the routes: shares of those that are placed add up to at most `limit`. */
export interface Relation {
  readonly limit: number;
  readonly share: ReadonlyMap<number, number>;
}

/**
 * The relations of `problem` that are sums: what needs another task, tasks that exclude each other, how many of a group may be, what containers hold, and what goes
 * back (without the containers themselves, which only lowers the mass).
 */
export function relationsOf(problem: Problem): Relation[] {
  const { needs, pairs, groups, loads, activities, crewCount } = problem;
  const relations: Relation[] = [];
  for (let a = 0; a < activities; a += 1) {
    for (const b of needs[a]!)
      relations.push({
        limit: 0,
        share: new Map([
          [a, 1],
          [b, -1],
        ]),
      });
    for (const { other, relation } of pairs[a]!)
      if (relation === "not both" && a < other)
        relations.push({
          limit: 1,
          share: new Map([
            [a, 1],
            [other, 1],
          ]),
        });
  }
  groups?.members.forEach((list, g) => {
    const limit = groups.most[g]!;
    if (list.length > limit) relations.push({ limit, share: new Map(Array.from(list, (a) => [a, 1])) });
  });
  const total = (amounts: Float64Array, limit: number, counts: (a: number) => boolean): void => {
    const share = new Map<number, number>();
    let whole = 0;
    for (let a = 0; a < activities; a += 1) {
      if (!counts(a) || amounts[a]! <= 0) continue;
      whole += amounts[a]!;
      share.set(a, amounts[a]! / limit);
    }
    if (whole > limit && limit > 0) relations.push({ limit: 1, share });
  };
  loads.holdsGrams.forEach((limit, c) => {
    total(loads.grams, limit, (a) => loads.container[a] === c);
  });
  loads.holdsMillilitres.forEach((limit, c) => {
    total(loads.millilitres, limit, (a) => loads.container[a] === c);
  });
  total(loads.grams, loads.returnGrams, (a) => loads.container[a]! >= 0);
  return relations.filter(({ share }) => [...share.keys()].every((a) => crewCount[a]! > 0));
}

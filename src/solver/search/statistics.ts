import { type RuinName, RUINS } from "./ruin.ts";

/**
 * What became of a turn: after the ruin no starts settle; it was turned away; the search went on from it; and no schedule before was
 * as good.
 */
const ENDS = ["unsettled", "turned away", "accepted", "best"] as const;
type TurnEnd = (typeof ENDS)[number];

/** Turns of a run, by how their ruin began and what became of them. */
export interface SearchStatistics {
  readonly turns: number;
  readonly ruins: readonly (Readonly<Record<TurnEnd, number>> & { readonly name: RuinName })[];
}

/** Counts turns as they come. */
export class SearchCounts {
  private readonly counts = new Map(RUINS.map((name) => [name, new Map(ENDS.map((end) => [end, 0]))]));

  note(ruin: RuinName, end: TurnEnd): void {
    const ends = this.counts.get(ruin)!;
    ends.set(end, ends.get(end)! + 1);
  }

  value(): SearchStatistics {
    const ruins = RUINS.map((name) => {
      const of = (end: TurnEnd): number => this.counts.get(name)!.get(end)!;
      return {
        name,
        unsettled: of("unsettled"),
        "turned away": of("turned away"),
        accepted: of("accepted"),
        best: of("best"),
      };
    }).filter((one) => ENDS.some((end) => one[end] > 0));
    const turns = ruins.reduce((sum, one) => ENDS.reduce((all, end) => all + one[end], sum), 0);
    return { turns, ruins };
  }
}

import { invariant } from "../../kernel/index.ts";

/** By what the search is steered. Shares and chances are 0 to 1. */
export interface SearchParameters {
  /** Temperature at the start and at the end of a cooling, in mean worths of an activity. */
  readonly hot: number;
  readonly cold: number;
  /** Iterations of one cooling, for each activity; in longer runs the search is heated up again, and ends cold. */
  readonly cooling: number;
  /** Fewer activities than this cool as slowly as so many. */
  readonly few: number;
  /** Part of a run after which its length in iterations is known well enough. */
  readonly lengthKnown: number;
  /** Parts of a run after each of which the routes seen so far are put together anew. */
  readonly recombined: number;
  /** Those are routes of days worth at least this part of the best. */
  readonly noted: number;
  /** Parts of the turns that let starts go on each EVA that was ruined, hold one back, and place two tasks at once. */
  readonly released: number;
  readonly heldBack: number;
  readonly twoAtOnce: number;
  /** Part of the turns that fill the day around where the ruin began, where many ask for a place. */
  readonly around: number;
  /** Part of the turns that may begin an EVA anew around something far from all that is on it; and while must-do work is left out. */
  readonly begunAnew: number;
  readonly begunForMust: number;
  /** Weight of the ends of routes beside worth, in mean worths a second: breaks ties, decides nothing else. */
  readonly endShare: number;
  /** Longest string taken from one route, and how many activities a ruin takes on average. */
  readonly longestString: number;
  readonly takenOnAverage: number;
  /** While a must-do activity is left out, this part of the ruins makes room for one. */
  readonly ejected: number;
  /** Where there are groups, this part of the ruins lets one of a full group go for another. */
  readonly swapped: number;
}

/** Chosen on some public instances and made plans, at a few seeds. */
const USUAL: SearchParameters = {
  hot: 1,
  cold: 0.05,
  cooling: 150,
  few: 30,
  lengthKnown: 0.02,
  recombined: 20,
  noted: 0.97,
  released: 0.5,
  heldBack: 0.1,
  twoAtOnce: 0.1,
  around: 0.3,
  begunAnew: 0.15,
  begunForMust: 0.25,
  endShare: 1e-6,
  longestString: 10,
  takenOnAverage: 10,
  ejected: 0.4,
  swapped: 0.15,
};

const SHARES = [
  "lengthKnown",
  "noted",
  "released",
  "heldBack",
  "twoAtOnce",
  "around",
  "begunAnew",
  "begunForMust",
  "ejected",
  "swapped",
] as const;
const COUNTS = ["cooling", "few", "recombined", "longestString", "takenOnAverage"] as const;

/** The usual parameters, but for those that are given. Throws InvariantError for what no search can be steered by. */
export function searchParameters(given: Partial<SearchParameters> = {}): SearchParameters {
  const all = { ...USUAL, ...given };
  for (const name of SHARES)
    invariant(all[name] >= 0 && all[name] <= 1, `${name} is ${all[name]}; a share is 0 to 1`);
  for (const name of COUNTS)
    invariant(Number.isInteger(all[name]) && all[name] >= 1, `${name} is ${all[name]}; a count is 1 or more`);
  invariant(
    all.cold > 0 && all.cold <= all.hot,
    `cooling from ${all.hot} to ${all.cold}; the end is above 0 and no hotter than the start`,
  );
  invariant(all.endShare >= 0 && all.endShare < 1e-3, `endShare is ${all.endShare}; it only breaks ties`);
  return Object.freeze(all);
}

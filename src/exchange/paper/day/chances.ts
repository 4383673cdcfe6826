import type { Chance, ChancesReport } from "../../../answers/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { noSpreadWords, percent, taskName, unplayedWords } from "../../../words/index.ts";
import type { Block } from "../flow.ts";
import { listLines } from "./bands.ts";
import type { SheetBox } from "./frame.ts";

/**
 * The chances of the day in simulated days, each beside what the plan wants of it, and the must-do tasks that are below; said to be
 * unknown where nobody has worked them out.
 */
export function chanceLines(plan: Plan, chances: ChancesReport | null, box: SheetBox): Block[] {
  if (plan.schedule.placements.length === 0) return [];
  if (!chances) return listLines("Chances: NOT WORKED OUT.", box);
  const { home, must, whole, wish, days, crew, tasks, unplayed, withoutSpread } = chances;
  if (unplayed.length > 0) return listLines(`Chances: NOT KNOWN. ${unplayedWords(plan, unplayed)}`, box);
  const acts = crew.breaksOff
    ? `the crew acts, caution ${percent(crew.caution, "given")}`
    : "the crew carries on regardless";
  const below = tasks
    .filter((one) => one.must && one.done.low < wish.must)
    .toSorted((a, b) => a.done.share - b.done.share)
    .map((one) => `${taskName(plan, one.task)} ${one.done.words}`);
  return [
    ...listLines(
      `Chances, of ${days} simulated days, ${acts}: everybody home ${against(home, wish.home)}; every must-do done ${against(must, wish.must)}; nothing missed ${whole.words}.`,
      box,
    ),
    ...listLines(noSpreadWords(withoutSpread.length, tasks.length) ?? "", box),
    ...(below.length > 0 ? listLines(`MUST-DO BELOW THE WISH: ${below.join("; ")}.`, box) : []),
  ];
}

/** A chance and how it stands against what is wanted; the whole interval counts. */
function against({ words, low, high }: Chance, wish: number): string {
  const wanted = percent(wish, "given");
  if (high < wish) return `${words}, BELOW THE WISH of ${wanted}`;
  return low < wish ? `${words}, may be below the wish of ${wanted}` : `${words}, wish ${wanted}`;
}

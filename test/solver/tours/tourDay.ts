import { random } from "../../../src/kernel/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { flatDay, placeAt } from "../../bench/flatday.ts";

/** A drawn day on flat ground on which only time decides: `tasks` optional tasks of one or two windows each, `crew` people, starts on a grid. */
export function tourDay(
  seed: number,
  { tasks, crew, gridS = 1, must = 0 }: { tasks: number; crew: number; gridS?: number; must?: number },
): Plan {
  const stream = random(seed);
  const whole = (low: number, high: number): number => low + stream.below(high - low + 1);
  const limitS = 3000;
  const window = (durationS: number): { startS: number; endS: number } => {
    const startS = whole(0, 2000);
    return { startS, endS: startS + durationS + whole(50, 900) };
  };
  const plan = flatDay({
    title: `tours ${seed}`,
    points: Array.from({ length: tasks + 1 }, () => ({ x: whole(0, 300), y: whole(0, 300) })),
    // Ways longer than the straight line, so that cutting them to whole metres leaves none that nobody can walk.
    unit: 2,
    limitS,
    crew: Array.from({ length: crew }, (_, k) => ({ id: `c${k + 1}` })),
    tasks: Array.from({ length: tasks }, (_, i) => {
      const likelyS = whole(30, 300);
      return {
        id: `t${i + 1}`,
        name: `t${i + 1}`,
        kind: "survey",
        place: placeAt(i + 1),
        duration: { likelyS },
        worth: whole(1, 30),
        must: i < must,
        windows: stream.next() < 0.5 ? [window(likelyS)] : [window(likelyS), window(likelyS)],
      };
    }),
  });
  return { ...plan, rules: { ...plan.rules, startGridS: gridS } };
}

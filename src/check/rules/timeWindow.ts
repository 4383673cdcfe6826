import type { Finding } from "../../answers/index.ts";
import { contains, instant, type Interval } from "../../kernel/index.ts";
import { lasting, met } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { runsWords } from "../names.ts";
import type { Placed } from "../placed.ts";
import { nearestOf, outsideOf, slipS } from "../spans.ts";

/** time-window: a task with windows lies inside one of them; a task without crew lies inside the stay. */
export const timeWindow: JudgeRule = ({ prepared, placed }) => {
  const { stay, rules } = prepared.plan;
  const whole: Interval = { startS: instant(0), endS: instant(stay.lengthS) };
  return placed.flatMap((one) => {
    const { task, span } = one;
    const runs = runsWords(one);
    if (task.crew.count === 0 && !contains(whole, span)) {
      const sentence = `${runs} and is not inside the stay, 0:00 MET to ${met(stay.lengthS)}.`;
      return [findingOf(one, "breach", -outsideOf(whole, span), sentence)];
    }
    const nearest = nearestOf(task.windows, span);
    if (!nearest) return [];
    const spareS = slipS(task.windows, span);
    if (spareS < 0) {
      const outsideS = outsideOf(nearest, span);
      const window = `its window ${met(nearest.startS)} to ${met(nearest.endS)}`;
      return [
        findingOf(one, "breach", -outsideS, `${runs}, outside ${window} by ${lasting(outsideS, "up")}.`),
      ];
    }
    if (spareS >= rules.tightS) return [];
    return [findingOf(one, "tight", spareS, `${runs}, ${lasting(spareS, "down")} before its window closes.`)];
  });
};

/** Both numbers are seconds to spare: none is asked for, below none is outside. */
function findingOf(one: Placed, level: "breach" | "tight", have: number, sentence: string): Finding {
  return finding("time-window", level, [about("task", one.task.id)], {
    span: one.span,
    need: 0,
    have,
    unit: "s",
    sentence,
  });
}

import { type Interval, instant } from "../../kernel/index.ts";
import { lasting, met, pet } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { outsideOf } from "../spans.ts";

/** egress-window: a task with a window counted from egress lies inside it, from the egress of the EVA on which it is. */
export const egressWindow: JudgeRule = ({ prepared, placed, outs }) => {
  const { tightS } = prepared.plan.rules;
  const outS = new Map(outs.map(({ eva, span }) => [eva.id, span.egressS]));
  return placed.flatMap(({ task, span, eva }) => {
    const egressS = eva ? outS.get(eva.id) : undefined;
    if (!task.pet || egressS === undefined) return [];
    const { startS = 0, endS } = task.pet;
    const window: Interval = {
      startS: instant(egressS + startS),
      endS: endS === undefined ? span.endS : instant(egressS + endS),
    };
    const findingOf = (level: "breach" | "tight", have: number, sentence: string) =>
      finding("egress-window", level, [about("task", task.id)], { span, need: 0, have, unit: "s", sentence });
    const runs = `${task.name} runs ${pet(span.startS - egressS)} to ${pet(span.endS - egressS)}`;
    const outsideS = outsideOf(window, span);
    if (outsideS > 0) {
      const bounds = endS === undefined ? `not before ${pet(startS)}` : `${pet(startS)} to ${pet(endS)}`;
      const egress = `egress at ${met(egressS)}`;
      return [
        findingOf(
          "breach",
          -outsideS,
          `${runs}, outside ${bounds} by ${lasting(outsideS, "up")}; ${egress}.`,
        ),
      ];
    }
    const spareS = window.endS - span.endS;
    if (endS === undefined || spareS >= tightS) return [];
    return [
      findingOf("tight", spareS, `${runs}, ${lasting(spareS, "down")} before its time from egress is over.`),
    ];
  });
};

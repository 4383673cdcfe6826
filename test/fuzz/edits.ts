import { check, judgeFor } from "../../src/check/index.ts";
import { planText } from "../../src/exchange/index.ts";
import { duration, instant, isEqual, type Random } from "../../src/kernel/index.ts";
import {
  applyEdit,
  type Edit,
  editBetween,
  invertEdit,
  parse,
  parseText,
  type Plan,
} from "../../src/plan/index.ts";

/** Random sequences of edits, held to what must be true after each: what is saved reads as the same plan, and all undone is the same bytes. */

const NAMES = ["Dig", "=1+1", "Käfer „x“", "\u202egnol", "a".repeat(120), "  spaced  ", "7"];

/** A plan with one random change; the same where the change does not apply. */
function changed(plan: Plan, draw: Random): Plan {
  const task = plan.tasks[draw.below(Math.max(1, plan.tasks.length))];
  if (!task) return plan;
  const retask = (part: Partial<typeof task>): Plan => ({
    ...plan,
    tasks: plan.tasks.map((one) => (one === task ? { ...one, ...part } : one)),
  });
  const { placements } = plan.schedule;
  const placement = placements[draw.below(Math.max(1, placements.length))];
  switch (draw.below(7)) {
    case 0:
      return retask({ name: NAMES[draw.below(NAMES.length)] ?? "Dig" });
    case 1:
      return retask({ must: !task.must });
    case 2:
      return retask({ duration: { likelyS: duration(60 * draw.below(120)) } });
    case 3:
      return retask({ massOutKg: draw.below(5000) / 1000 });
    case 4:
      return {
        ...plan,
        schedule: {
          placements: placements.map((one) =>
            one === placement ? { ...one, startS: instant(one.startS + 60 * (draw.below(120) - 60)) } : one,
          ),
        },
      };
    case 5:
      return { ...plan, schedule: { placements: placements.filter((one) => one !== placement) } };
    default:
      return { ...plan, tasks: [...plan.tasks].reverse() };
  }
}

/** What came of many sequences. */
export interface EditTally {
  readonly sequences: number;
  readonly edits: number;
  readonly slowestMs: number;
  readonly faults: readonly string[];
}

/** Tries `count` sequences of up to `longest` edits; the clock counts ms. */
export function tryEdits(
  plan: Plan,
  count: number,
  longest: number,
  draw: Random,
  nowMs: () => number,
): EditTally {
  const begin = planText(plan);
  const faults: string[] = [];
  let edits = 0;
  let slowestMs = 0;
  for (let number = 0; number < count; number += 1) {
    const mine = draw.split();
    const done: Edit[] = [];
    let now = plan;
    const fault = (words: string): void => {
      if (faults.length < 5) faults.push(`sequence ${number}, edit ${done.length}: ${words}`);
    };
    try {
      for (let left = 1 + mine.below(longest); left > 0; left -= 1) {
        const begun = nowMs();
        const read = parse(changed(now, mine));
        if (!read.ok) continue;
        const edit = editBetween("Edit", now, read.value);
        now = applyEdit(now, edit);
        done.push(edit);
        edits += 1;
        const again = parseText(planText(now));
        if (!again.ok || !isEqual(again.value, now)) fault("what is saved reads as another plan");
        slowestMs = Math.max(slowestMs, nowMs() - begun);
      }
      // A judge that has judged another schedule of the plan before says the same as one from scratch.
      const judge = judgeFor(now);
      judge({ placements: now.schedule.placements.slice(1) });
      if (!isEqual(judge(now.schedule), check(now, now.schedule))) fault("another verdict from scratch");
      for (const edit of done.reverse()) now = applyEdit(now, invertEdit(edit));
      if (planText(now) !== begin) fault("all undone is not the same bytes");
    } catch (error) {
      fault(error instanceof Error ? (error.stack ?? error.message).slice(0, 400) : "thrown");
    }
  }
  return { sequences: count, edits, slowestMs, faults };
}

import { instant } from "../../kernel/index.ts";
import { about, broken, finding, type FlightRule } from "../finding.ts";
import { evaName } from "../names.ts";
import { lasting, met } from "../phrases.ts";
import type { Prepared } from "../prepared.ts";
import type { Step } from "../steps.ts";
import type { Walk } from "../walks.ts";

/**
 * work-and-rest: no stretch of work and walking (egress and ingress work included) is longer than the limit; only
 * standing pauses or `rest` effort of at least the rest time, one after the other taken together, end a stretch. A
 * shorter pause inside a stretch counts with it.
 */
export const workAndRest: FlightRule = ({ prepared, outs }) => {
  const { work, tightS } = prepared.plan.rules;
  return outs
    .flatMap((out) => out.walks)
    .flatMap((walk) => {
      const worst = longestOf(prepared, walk);
      if (!worst) return [];
      const lengthS = worst.endS - worst.startS;
      const spareS = work.longestS - lengthS;
      if (spareS >= tightS) return [];
      const at = `${walk.walker.member.name} on ${evaName(prepared, walk.outing.eva)}`;
      const works = `${at} works ${lasting(lengthS, "up")} without a rest of ${lasting(work.restS, "up")}, ${met(worst.startS)} to ${met(worst.endS)}`;
      return [
        finding(
          "work-and-rest",
          spareS < 0 ? broken(work.level) : "tight",
          [about("crew", walk.outing.crew), about("eva", walk.outing.eva)],
          {
            span: { startS: instant(worst.startS), endS: instant(worst.endS) },
            need: work.longestS,
            have: lengthS,
            unit: "s",
            sentence: `${works}; at most ${lasting(work.longestS, "down")} is allowed.`,
          },
        ),
      ];
    });
};

interface Work {
  readonly startS: number;
  readonly endS: number;
}

function longestOf(prepared: Prepared, walk: Walk): Work | null {
  const { restS } = prepared.plan.rules.work;
  let longest: Work | null = null;
  let current: Work | undefined;
  let restedS = 0;
  for (const step of walk.steps) {
    const { span } = step.stretch;
    if (span.startS === span.endS) continue;
    if (rests(prepared, step)) {
      restedS += step.seconds;
      if (restedS >= restS) current = undefined;
      continue;
    }
    restedS = 0;
    const beganS: number = current ? current.startS : span.startS;
    current = { startS: beganS, endS: span.endS };
    if (!longest || current.endS - current.startS > longest.endS - longest.startS) longest = current;
  }
  return longest;
}

function rests(prepared: Prepared, { stretch }: Step): boolean {
  if (stretch.kind === "wait") return true;
  return stretch.task !== null && prepared.tasks.get(stretch.task)?.effort === "rest";
}

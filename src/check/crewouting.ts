import type { Outing } from "../answers/index.ts";
import { type Amounts, storedAfterJ } from "../physics/index.ts";
import type { Eva } from "../plan/index.ts";
import { drawn } from "./amounts.ts";
import type { Departures } from "./departures.ts";
import type { Placed } from "./placed.ts";
import type { Prepared, Walker, SuitLoad } from "./prepared.ts";
import { type Span, type Step, stepsOf } from "./steps.ts";

/** One crew member on one EVA, fully derived. */
export interface CrewOuting {
  readonly walker: Walker;
  readonly suitLoad: SuitLoad;
  readonly outing: Outing;
  readonly tasks: readonly Placed[];
  readonly steps: readonly Step[];
  /** What is left before each step, and at the end: one more entry than steps. */
  readonly left: readonly Amounts[];
  /** Heat stored in the body at the same moments, J. */
  readonly storedJ: readonly number[];
  readonly walkedM: number;
}

/** An EVA that takes place. */
export interface Out {
  readonly eva: Eva;
  readonly span: Span;
  readonly crewOutings: readonly CrewOuting[];
}

/** The outing of `walker` with `tasks` in order, and what its suit, full but for the purge, has left at every step (S7). */
export function crewOutingOf(
  prepared: Prepared,
  walker: Walker,
  eva: Eva,
  span: Span,
  tasks: readonly Placed[],
  departures?: Departures,
): CrewOuting {
  const steps = stepsOf(prepared, walker, eva, span, tasks, departures);
  const suitLoad = walker.on(eva);
  const left: Amounts[] = [suitLoad.atEgress];
  const storedJ = [0];
  let walkedM = 0;
  steps.forEach(({ stretch, seconds, mode }, k) => {
    left.push(drawn(left[k]!, suitLoad.draw(mode, stretch.metabolicW), seconds));
    const loadW = suitLoad.heat(mode, stretch.metabolicW);
    storedJ.push(storedAfterJ(storedJ[k]!, loadW, walker.coolingW, seconds));
    walkedM += stretch.walkM;
  });
  const outing: Outing = {
    eva: eva.id,
    crew: walker.member.id,
    span: { startS: span.egressS, endS: span.ingressS },
    stretches: steps.map((step) => step.stretch),
  };
  return { walker, suitLoad, outing, tasks, steps, left, storedJ, walkedM };
}

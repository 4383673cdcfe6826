import type { Finding } from "../../answers/index.ts";
import { evaName, lasting, met, timeLeft } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { waySeconds } from "../steps.ts";
import type { CrewOuting } from "../crewouting.ts";
import type { Prepared } from "../prepared.ts";

/**
 * one-at-a-time: a crew member's tasks do not overlap, and there is time to walk from each to the next. Between
 * tasks of two EVAs lie the walk home and both airlock works, so outings of one crew member do not overlap either.
 */
export const oneAtATime: JudgeRule = ({ prepared, crewOutingsOf }) => {
  const findings: Finding[] = [];
  for (const crewOutings of crewOutingsOf.values()) {
    for (const crewOuting of crewOutings) findings.push(...inOneEva(prepared, crewOuting));
    findings.push(...betweenEvas(prepared, crewOutings));
  }
  return findings;
};

/** Each task against the one before it that ends last. */
function inOneEva(prepared: Prepared, crewOuting: CrewOuting): Finding[] {
  const findings: Finding[] = [];
  let before = crewOuting.tasks[0];
  for (const next of crewOuting.tasks.slice(1)) {
    const last = before!;
    if (next.span.endS >= last.span.endS) before = next;
    const wayS = waySeconds(prepared, last.endPlace, next.place);
    const gapS = next.span.startS - last.span.endS;
    if (gapS >= wayS) continue;
    const name = crewOuting.walker.member.name;
    const sentence =
      gapS < 0
        ? `${name}: ${next.task.name} starts at ${met(next.span.startS)}, before ${last.task.name} ends at ${met(last.span.endS)}.`
        : `${name} has ${timeLeft(gapS)} from ${last.task.name} to ${next.task.name}; the walk takes ${lasting(wayS, "up")}.`;
    findings.push(
      finding(
        "one-at-a-time",
        "breach",
        [about("crew", crewOuting.outing.crew), about("task", last.task.id), about("task", next.task.id)],
        {
          span: { startS: last.span.startS, endS: next.span.endS },
          need: wayS,
          have: gapS,
          unit: "s",
          sentence,
        },
      ),
    );
  }
  return findings;
}

/** Each outing against the one before it that ends last. */
function betweenEvas(prepared: Prepared, crewOutings: readonly CrewOuting[]): Finding[] {
  const findings: Finding[] = [];
  let before = crewOutings[0];
  for (const next of crewOutings.slice(1)) {
    const last = before!;
    if (next.outing.span.endS >= last.outing.span.endS) before = next;
    const gapS = next.outing.span.startS - last.outing.span.endS;
    if (gapS >= 0) continue;
    findings.push(
      finding(
        "one-at-a-time",
        "breach",
        [about("crew", next.outing.crew), about("eva", last.outing.eva), about("eva", next.outing.eva)],
        {
          span: { startS: next.outing.span.startS, endS: last.outing.span.endS },
          need: 0,
          have: gapS,
          unit: "s",
          sentence: `${next.walker.member.name} is on ${evaName(prepared.plan, next.outing.eva)} from ${met(next.outing.span.startS)}, before ${evaName(prepared.plan, last.outing.eva)} is in at ${met(last.outing.span.endS)}.`,
        },
      ),
    );
  }
  return findings;
}

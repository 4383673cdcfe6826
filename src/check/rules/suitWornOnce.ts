import type { Finding } from "../../answers/index.ts";
import { instant } from "../../kernel/index.ts";
import { evaName, met } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";

/** suit-worn-once: outings in one suit do not overlap, egress to ingress complete. One finding a suit and pair of outings. */
export const suitWornOnce: JudgeRule = ({ prepared, crewOutingsIn }) => {
  const findings: Finding[] = [];
  for (const [suit, crewOutings] of crewOutingsIn) {
    let before = crewOutings[0];
    for (const next of crewOutings.slice(1)) {
      const last = before!;
      if (next.outing.span.endS >= last.outing.span.endS) before = next;
      const startS = next.outing.span.startS;
      const endS = Math.min(next.outing.span.endS, last.outing.span.endS);
      // One person on two EVAs at once is one-at-a-time.
      if (startS >= last.outing.span.endS || next.outing.crew === last.outing.crew) continue;
      const who = [last, next].map(
        ({ walker, outing }) => `${walker.member.name} on ${evaName(prepared.plan, outing.eva)}`,
      );
      findings.push(
        finding(
          "suit-worn-once",
          "breach",
          [
            about("suit", suit),
            ...[last, next].flatMap(({ outing }) => [about("crew", outing.crew), about("eva", outing.eva)]),
          ],
          {
            span: { startS, endS: instant(endS) },
            sentence: `${next.walker.suit.name} is worn by ${who.join(" and by ")} at once, ${met(startS)} to ${met(endS)}.`,
          },
        ),
      );
    }
  }
  return findings;
};

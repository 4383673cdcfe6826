import { about, broken, finding, type FlightRule } from "../finding.ts";
import { evaName } from "../names.ts";
import { lasting } from "../phrases.ts";
import type { Finding } from "../verdict.ts";

/** recharge: from ingress complete to the same crew member's next egress. */
export const recharge: FlightRule = ({ prepared, walksOf }) => {
  const { recharge: rule, tightS } = prepared.plan.rules;
  const findings: Finding[] = [];
  for (const [crew, walks] of walksOf) {
    walks.slice(1).forEach((next, k) => {
      const before = walks[k]!.outing;
      const gapS = next.outing.span.startS - before.span.endS;
      const spareS = gapS - rule.leastS;
      if (spareS >= tightS) return;
      findings.push(
        finding(
          "recharge",
          spareS < 0 ? broken(rule.level) : "tight",
          [about("crew", crew), about("eva", before.eva), about("eva", next.outing.eva)],
          {
            span: gapS > 0 ? { startS: before.span.endS, endS: next.outing.span.startS } : null,
            need: rule.leastS,
            have: gapS,
            unit: "s",
            sentence: `${next.walker.member.name} has ${lasting(gapS, "down")} between ${evaName(prepared, before.eva)} and ${evaName(prepared, next.outing.eva)}; recharging needs ${lasting(rule.leastS, "up")}.`,
          },
        ),
      );
    });
  }
  return findings;
};

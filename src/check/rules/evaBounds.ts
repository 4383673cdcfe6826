import { instant } from "../../kernel/index.ts";
import type { Eva } from "../../plan/index.ts";
import { lasting, listed, met } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import type { Span } from "../steps.ts";

/** eva-bounds: egress not before, nor before touchdown, ingress complete not after, not longer; ingress complete before liftoff. */
export const evaBounds: JudgeRule = ({ prepared, outs }) => {
  const { stay, rules } = prepared.plan;
  return outs.flatMap(({ eva, span }) => {
    const bounds = boundsOf(eva, span, stay.lengthS);
    const over = bounds.filter((bound) => bound.spareS < 0);
    const near = bounds.filter((bound) => bound.spareS < rules.tightS);
    const worst = [...near].sort((a, b) => a.spareS - b.spareS)[0];
    if (!worst) return [];
    const reported = over.length > 0 ? over : near;
    return [
      finding("eva-bounds", over.length > 0 ? "breach" : "tight", [about("eva", eva.id)], {
        span: { startS: span.egressS, endS: span.ingressS },
        need: worst.need,
        have: worst.have,
        unit: "s",
        parts: reported.map(({ of, sense, need, have }) => ({ of, sense, need, have, unit: "s" })),
        sentence: `${eva.name} ${listed(reported.map((bound) => bound.says))}.`,
      }),
    ];
  });
};

/** All that bounds an EVA, and what it has to spare of each, s. */
function boundsOf(eva: Eva, span: Span, liftoffS: number) {
  const lengthS = span.ingressS - span.egressS;
  return [
    {
      of: "earliest egress",
      sense: "least" as const,
      // Going out at the first chance is no risk, so only a breach counts.
      spareS: span.egressS >= eva.earliestEgressS ? Infinity : span.egressS - eva.earliestEgressS,
      need: eva.earliestEgressS as number,
      have: span.egressS as number,
      says: `goes out at ${met(span.egressS)}, the earliest is ${met(eva.earliestEgressS)}`,
    },
    {
      of: "touchdown",
      sense: "least" as const,
      // Whatever the EVA allows: nobody is there yet.
      spareS: span.egressS >= 0 ? Infinity : span.egressS,
      need: 0,
      have: span.egressS as number,
      says: `goes out at ${met(span.egressS)}, touchdown is at ${met(instant(0))}`,
    },
    {
      of: "latest ingress",
      sense: "most" as const,
      spareS: eva.latestIngressS - span.ingressS,
      need: eva.latestIngressS as number,
      have: span.ingressS as number,
      says: `is in at ${met(span.ingressS)}, the latest is ${met(eva.latestIngressS)}`,
    },
    {
      of: "longest",
      sense: "most" as const,
      spareS: eva.longestS - lengthS,
      need: eva.longestS as number,
      have: lengthS,
      says: `lasts ${lasting(lengthS, "up")}, the longest is ${lasting(eva.longestS, "down")}`,
    },
    {
      of: "liftoff",
      sense: "most" as const,
      spareS: liftoffS - span.ingressS,
      need: liftoffS,
      have: span.ingressS as number,
      says: `is in at ${met(span.ingressS)}, liftoff is at ${met(liftoffS)}`,
    },
  ];
}

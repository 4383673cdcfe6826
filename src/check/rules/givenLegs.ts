import type { Finding, Stretch } from "../../answers/index.ts";
import { FASTEST_MS } from "../../physics/index.ts";
import type { LegFault } from "../../terrain/index.ts";
import { metres, evaName, kmH, lasting, listed } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { placeName } from "../names.ts";
import type { Prepared } from "../prepared.ts";
import type { CrewOuting } from "../crewouting.ts";

/**
 * walking-physics, of legs that the planner gave: none is shorter than the straight line between its places, faster than anybody
 * was timed in a suit, or has a longest way home shorter than the straight line from its farther end. One that an outing walks
 * is a breach, never a warning; one that none walks yet is tight.
 */
export const givenLegs: JudgeRule = ({ prepared, outs }) => {
  const crewOutings = outs.flatMap((out) => out.crewOutings);
  return prepared.legFaults.map((fault) => {
    const { from, to } = prepared.plan.site.legs[fault.leg]!;
    const used = crewOutings.flatMap((crewOuting) => usesOf(prepared, crewOuting, fault.leg));
    const first = used.reduce<Use | null>(
      (least, one) => (!least || one.stretch.span.startS < least.stretch.span.startS ? one : least),
      null,
    );
    const who = first
      ? `; ${first.crewOuting.walker.member.name} on ${evaName(prepared.plan, first.crewOuting.outing.eva)} walks it`
      : "; no outing walks it yet";
    return finding(
      "walking-physics",
      first ? "breach" : "tight",
      [about("place", from), about("place", to)],
      { span: first?.stretch.span ?? null, ...legFinding(prepared, fault, who) },
    );
  });
};

interface Use {
  readonly crewOuting: CrewOuting;
  readonly stretch: Stretch;
}

function usesOf({ ways }: Prepared, crewOuting: CrewOuting, leg: number): Use[] {
  return crewOuting.outing.stretches.flatMap((stretch) => {
    const path = stretch.path.map((id) => ways.index.get(id) ?? ways.lander);
    const walked = path.some((to, k) => k > 0 && ways.legAt[path[k - 1]! * ways.size + to] === leg);
    return walked ? [{ crewOuting, stretch }] : [];
  });
}

/** What is wrong with a leg: all of it in the sentence, the first as numbers. */
function legFinding(
  prepared: Prepared,
  fault: LegFault,
  who: string,
): Pick<Finding, "need" | "have" | "unit" | "sentence"> {
  const { ways, plan } = prepared;
  const leg = plan.site.legs[fault.leg]!;
  const [from, to] = [leg.from, leg.to].map((id) => placeName(prepared, ways.index.get(id) ?? -1));
  const { lineM, speedMs, homeM } = fault;
  const { distanceM, durationS, walkbackPeakM = 0 } = leg;
  const wrongs = [
    ...(lineM === null
      ? []
      : [
          `is given as ${metres(distanceM, "down")}, shorter than the straight line of ${metres(lineM, "up")}`,
        ]),
    ...(speedMs === null
      ? []
      : [
          `takes ${lasting(durationS, "down")}, faster than anybody was timed in a suit (${kmH(FASTEST_MS)})`,
        ]),
    ...(homeM === null
      ? []
      : [
          `has a worst walk-back of ${metres(walkbackPeakM, "down")}, shorter than the straight line home from an end of it, ${metres(homeM, "up")}`,
        ]),
  ];
  const numbers =
    lineM !== null
      ? { need: lineM, have: distanceM, unit: "m" as const }
      : speedMs !== null
        ? { need: FASTEST_MS, have: speedMs === Infinity ? null : speedMs, unit: "m/s" as const }
        : { need: homeM, have: walkbackPeakM, unit: "m" as const };
  return { ...numbers, sentence: `The leg from ${from} to ${to} ${listed(wrongs)}${who}.` };
}

import type { Finding } from "../../answers/index.ts";
import { evaName } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { placeName } from "../names.ts";
import type { Prepared } from "../prepared.ts";
import type { CrewOuting } from "../crewouting.ts";

/** no-way: there is a way between all places a crew member goes through, and home. */
export const noWay: JudgeRule = ({ prepared, outs }) =>
  outs
    .flatMap((out) => out.crewOutings)
    .flatMap((crewOuting) => [...missingWays(prepared, crewOuting), ...cutOff(prepared, crewOuting)]);

function missingWays(prepared: Prepared, crewOuting: CrewOuting): Finding[] {
  const { ways, plan } = prepared;
  const seen = new Set<number>();
  return crewOuting.steps.flatMap(({ stretch, from, to }) => {
    const cell = from * ways.size + to;
    if (from === to || ways.durationS[cell]! >= 0 || seen.has(cell)) return [];
    seen.add(cell);
    return [
      finding(
        "no-way",
        "breach",
        [
          about("crew", crewOuting.outing.crew),
          about("eva", crewOuting.outing.eva),
          about("place", plan.site.places[from]!.id),
          about("place", plan.site.places[to]!.id),
        ],
        {
          span: stretch.span,
          sentence: `${crewOuting.walker.member.name} on ${evaName(prepared.plan, crewOuting.outing.eva)}: no way leads from ${placeName(prepared, from)} to ${placeName(prepared, to)}.`,
        },
      ),
    ];
  });
}

/** Places gone through from which no way leads home. */
function cutOff(prepared: Prepared, crewOuting: CrewOuting): Finding[] {
  const { ways, home, plan } = prepared;
  const findings = new Map<number, Finding>();
  for (const { stretch } of crewOuting.steps) {
    for (const id of stretch.path) {
      const place = ways.index.get(id);
      if (place === undefined || home.placeS[place]! >= 0 || findings.has(place)) continue;
      findings.set(
        place,
        finding(
          "no-way",
          "breach",
          [
            about("crew", crewOuting.outing.crew),
            about("eva", crewOuting.outing.eva),
            about("place", plan.site.places[place]!.id),
          ],
          {
            span: stretch.span,
            sentence: `${crewOuting.walker.member.name} on ${evaName(prepared.plan, crewOuting.outing.eva)}: no way leads home from ${placeName(prepared, place)}.`,
          },
        ),
      );
    }
  }
  return [...findings.values()];
}

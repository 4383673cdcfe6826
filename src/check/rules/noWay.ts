import type { Finding } from "../../answers/index.ts";
import { evaName } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { placeName } from "../names.ts";
import type { Prepared } from "../prepared.ts";
import type { CrewOuting } from "../walks.ts";

/** no-way: there is a way between all places a crew member goes through, and home. */
export const noWay: JudgeRule = ({ prepared, outs }) =>
  outs
    .flatMap((out) => out.walks)
    .flatMap((walk) => [...missingWays(prepared, walk), ...cutOff(prepared, walk)]);

function missingWays(prepared: Prepared, walk: CrewOuting): Finding[] {
  const { ways, plan } = prepared;
  const seen = new Set<number>();
  return walk.steps.flatMap(({ stretch, from, to }) => {
    const cell = from * ways.size + to;
    if (from === to || ways.durationS[cell]! >= 0 || seen.has(cell)) return [];
    seen.add(cell);
    return [
      finding(
        "no-way",
        "breach",
        [
          about("crew", walk.outing.crew),
          about("eva", walk.outing.eva),
          about("place", plan.site.places[from]!.id),
          about("place", plan.site.places[to]!.id),
        ],
        {
          span: stretch.span,
          sentence: `${walk.walker.member.name} on ${evaName(prepared.plan, walk.outing.eva)}: no way leads from ${placeName(prepared, from)} to ${placeName(prepared, to)}.`,
        },
      ),
    ];
  });
}

/** Places gone through from which no way leads home. */
function cutOff(prepared: Prepared, walk: CrewOuting): Finding[] {
  const { ways, home, plan } = prepared;
  const findings = new Map<number, Finding>();
  for (const { stretch } of walk.steps) {
    for (const id of stretch.path) {
      const place = ways.index.get(id);
      if (place === undefined || home.placeS[place]! >= 0 || findings.has(place)) continue;
      findings.set(
        place,
        finding(
          "no-way",
          "breach",
          [
            about("crew", walk.outing.crew),
            about("eva", walk.outing.eva),
            about("place", plan.site.places[place]!.id),
          ],
          {
            span: stretch.span,
            sentence: `${walk.walker.member.name} on ${evaName(prepared.plan, walk.outing.eva)}: no way leads home from ${placeName(prepared, place)}.`,
          },
        ),
      );
    }
  }
  return [...findings.values()];
}

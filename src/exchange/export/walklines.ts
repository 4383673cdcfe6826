import type { Line, SiteRing, SiteWalks } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { crewName, evaName, lasting, placeName } from "../../words/index.ts";
import type { NamedLine } from "../geojson.ts";

/** The ways of the day and lines of equal walk-back, each with its name. */
export function walkLines(plan: Plan, walks: SiteWalks, rings: readonly SiteRing[]): NamedLine[] {
  const ways = walks.courses.flatMap(({ crew, eva, legs }) =>
    legs.flatMap(({ course, fromPlace, toPlace }): NamedLine[] => {
      const points = [];
      for (let k = 0; k < course.length; k += 3) points.push({ eastM: course[k]!, northM: course[k + 1]! });
      if (points.length < 2) return [];
      const name = `${crewName(plan, crew)}, ${evaName(plan, eva)}: ${placeName(plan, fromPlace)} to ${placeName(plan, toPlace)}`;
      return [{ name, kind: "way", points }];
    }),
  );
  const limits = rings.flatMap((ring) =>
    ring.lines.map((line: Line): NamedLine => {
      const points = [];
      for (let k = 0; k < line.length; k += 2) points.push({ eastM: line[k]!, northM: line[k + 1]! });
      const what = { emergency: "emergency oxygen", shared: "cooling shared", stock: "" }[ring.kind];
      return {
        name: `Walk back of ${lasting(ring.seconds, "down")}, ${what || ring.crew.map((id) => crewName(plan, id)).join(", ")}`,
        kind: "walk-back",
        points,
      };
    }),
  );
  return [...ways, ...limits];
}

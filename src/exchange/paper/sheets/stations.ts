import type { Eva, Place } from "../../../plan/index.ts";
import { bearing, clock, isPlaced, listed, metres, minutes } from "../../../words/index.ts";
import { nameOf, placeName, taskName } from "../crewday.ts";
import type { Body, Row, Section } from "./body.ts";
import { evasOut, type SheetGiven, type PlacedTask, placedTasksOf } from "./given.ts";
import { mapDrawing, WAY_LINES } from "./map/map.ts";

/** What is done at each place, and who walks where. */

export interface StationRow {
  readonly place: Place;
  /** Tasks of one EVA that begin there, by start. */
  readonly placedTasks: readonly PlacedTask[];
}

/** The places where an EVA works, in the order in which it comes there first. */
export function stationRows({ plan }: Pick<SheetGiven, "plan">, eva: Eva): StationRow[] {
  const placedTasks = placedTasksOf(plan).filter((placed) => placed.eva === eva.id);
  const ids = [...new Set(placedTasks.map(({ task }) => task.place))];
  return ids.flatMap((id) => {
    const place = plan.site.places.find((one) => one.id === id);
    return place ? [{ place, placedTasks: placedTasks.filter(({ task }) => task.place === id) }] : [];
  });
}

/** Where a place lies and how long the walk-back from it takes, in words. */
export function whereWords(
  { walks }: Pick<SheetGiven, "walks">,
  place: Place,
): { way: string; home: string } {
  if (place.kind === "lander") return { way: "here", home: minutes(0, "up") };
  const known = isPlaced(place) ? walks?.places.find((one) => one.id === place.id) : undefined;
  if (!known) return { way: "?", home: "?" };
  return {
    way: `${bearing(known.bearingDeg)}, ${metres(known.distanceM, "up")}`,
    home: known.homeS < 0 ? "NO WAY" : minutes(known.homeS, "up"),
  };
}

/** For each EVA a map of its ways and its tasks by place. */
export function stationBodies(given: SheetGiven): Body[] {
  const { plan, walks } = given;
  return evasOut(given).map(({ eva, outings }): Body => {
    const rows = stationRows(given, eva);
    const lines = outings.map(({ crew }) => {
      const at = plan.crew.findIndex(({ id }) => id === crew);
      return `${nameOf(plan.crew, crew)} ${(WAY_LINES[at % WAY_LINES.length] ?? WAY_LINES[0]).words}`;
    });
    const numbersAt = new Map(
      rows.map(({ place, placedTasks }) => [place.id, placedTasks.map(({ number }) => number).join(" ")]),
    );
    return {
      title: `Tasks by station, ${nameOf(plan.evas, eva.id)}`,
      wide: false,
      under: [`Ways: ${listed(lines)}. Behind a place's name: its tasks.`],
      key: [
        "Bearing from north over east and straight line from the lander; walk-back at the walk-back speed, rounded up. Ways set side by side where they are walked together. A square without a name: no task here, see the site map. ?: not known.",
      ],
      sections: [
        ...(walks
          ? [
              mapDrawing({
                plan,
                courses: walks.courses.filter((course) => course.eva === eva.id),
                noteOf: (place) => numbersAt.get(place) ?? null,
              }),
            ]
          : []),
        stationTable(given, rows),
      ],
    };
  });
}

function stationTable(given: SheetGiven, rows: readonly StationRow[]): Section {
  const { plan } = given;
  return {
    kind: "table",
    none: "No task on this EVA.",
    columns: [
      { head: "PLACE", grow: 1.2, bold: true },
      { head: "FROM LANDER" },
      { head: "WALK-BACK", align: "right" },
      { head: "MET", align: "right" },
      { head: "ENDS", align: "right" },
      { head: "TASK", grow: 2 },
      { head: "WHO" },
      { head: "ENDS AT", grow: 0.9 },
    ],
    rows: rows.flatMap(({ place, placedTasks }) => {
      const { way, home } = whereWords(given, place);
      return placedTasks.map((placed, i): Row => ({
        cells: [
          { text: i === 0 ? placeName(plan, place.id) : "" },
          { text: i === 0 ? way : "" },
          { text: i === 0 ? home : "" },
          { text: clock(placed.startS) },
          { text: clock(placed.endS) },
          { text: taskName(placed.task), number: placed.number },
          { text: placed.crew.map((id) => nameOf(plan.crew, id)).join(" ") },
          {
            text:
              placed.task.endPlace === undefined || placed.task.endPlace === place.id
                ? ""
                : placeName(plan, placed.task.endPlace),
          },
        ],
      }));
    }),
  };
}

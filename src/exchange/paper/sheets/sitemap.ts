import { digits, metres, numberedTask, unlessToGive } from "../../../words/index.ts";
import { nameOf, placeName } from "../crewday.ts";
import type { Body, Row, Table } from "./body.ts";
import type { SheetGiven } from "./given.ts";
import { mapDrawing } from "./map/map.ts";
import { whereWords } from "./stations.ts";

/** The site on one map, and every place with where it lies. */
export function siteMapBody(given: SheetGiven): Body {
  const { plan, ground } = given;
  const { site } = plan;
  const where = [
    `latitude ${unlessToGive(site, "latDeg", `${digits(site.latDeg)}°`)}`,
    `longitude ${unlessToGive(site, "lonDeg", `${digits(site.lonDeg)}°`)}`,
  ].join(", ");
  const contours = ground
    ? `Contours every ${metres(ground.stepM, "given")}; heights: ${ground.source}.`
    : "Heights of the ground are not known.";
  return {
    title: `Site map, ${site.name}`,
    wide: false,
    under: [`${where}. ${contours}`],
    key: [
      "North is up. Black square: lander. Dashed rims: keep-outs. Distances straight, rounded up; walk-back at the walk-back speed, rounded up. ?: not known.",
    ],
    sections: [
      mapDrawing({ plan, ground, courses: [], noteOf: () => "" }),
      placesTable(given),
      keepOutsTable(given),
    ],
  };
}

/** Where every place lies, and how long it is home from there. */
function placesTable(given: SheetGiven): Table {
  const { plan } = given;
  return {
    kind: "table",
    title: "Places",
    none: "",
    columns: [
      { head: "PLACE", grow: 2, bold: true },
      { head: "KIND" },
      { head: "EAST m", align: "right" },
      { head: "NORTH m", align: "right" },
      { head: "FROM LANDER" },
      { head: "WALK-BACK", align: "right" },
    ],
    rows: plan.site.places.map((place): Row => {
      const { way, home } = whereWords(given, place);
      return {
        cells: [
          placeName(plan, place.id),
          place.kind,
          unlessToGive(place, "eastM", digits(place.eastM), "?"),
          unlessToGive(place, "northM", digits(place.northM), "?"),
          way,
          home,
        ].map((text) => ({ text })),
      };
    }),
  };
}

/** Where nobody walks or works, and from when on. */
function keepOutsTable({ plan }: SheetGiven): Table {
  const { keepOuts } = plan.site;
  return {
    kind: "table",
    title: "Keep-outs",
    none: "None.",
    columns: [
      { head: "KEEP-OUT", grow: 2, bold: true },
      { head: "WHAT", grow: 2 },
      { head: "FROM WHEN", grow: 2 },
    ],
    rows: keepOuts.map((one): Row => {
      const task = plan.tasks.find(({ id }) => id === one.afterTask);
      const what = one.kind === "walking" ? "nobody walks through" : "hot: nobody works inside";
      const about = one.shape.type === "disc" ? `${what}, ${metres(one.shape.radiusM, "up")} round` : what;
      return {
        cells: [
          nameOf(keepOuts, one.id),
          about,
          task ? `end of ${numberedTask(plan, task.id)}` : "always",
        ].map((text) => ({ text })),
      };
    }),
  };
}

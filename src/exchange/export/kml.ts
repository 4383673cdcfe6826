import type { Plan } from "../../plan/index.ts";
import { type NamedLine, siteFeatures } from "../geojson.ts";
import { planState } from "../planstate.ts";

/** Places, keep-outs and lines as KML 2.2 (OGC 07-147r2), longitude and latitude on the plan's body, which is named in it; `madeMs` is when it is written, milliseconds since 1970. */
export function planKml(plan: Plan, lines: readonly NamedLine[], madeMs: number): string {
  const marks = siteFeatures(plan, lines).map(({ name, kind, type, pieces }) => {
    const shapes = pieces.map((degrees) => {
      const where = degrees.map((pair) => pair.join(",")).join(" ");
      return type === "Polygon"
        ? `<Polygon><outerBoundaryIs><LinearRing><coordinates>${where}</coordinates></LinearRing></outerBoundaryIs></Polygon>`
        : `<${type}><coordinates>${where}</coordinates></${type}>`;
    });
    const shape = shapes.length === 1 ? shapes[0] : `<MultiGeometry>${shapes.join("")}</MultiGeometry>`;
    return `<Placemark><name>${safe(name)}</name><description>${safe(kind)}</description>${shape}</Placemark>`;
  });
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<kml xmlns="http://www.opengis.net/kml/2.2"><Document>',
    `<name>${safe(plan.title)}</name>`,
    `<description>${safe(`Degrees on ${plan.body.name}, mean radius ${plan.body.radiusM} m. Not on the Earth. ${planState(plan, madeMs)}.`)}</description>`,
    ...marks,
    "</Document></kml>",
    "",
  ].join("\n");
}

/** Text as XML has it; signs that XML cannot hold become blanks. */
function safe(text: string): string {
  return text
    .replace(/[^\P{C}\t\n]|[\ufffe\uffff]/gu, " ")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;");
}

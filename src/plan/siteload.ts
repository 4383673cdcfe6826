import { isRecord } from "../kernel/index.ts";
import type { Fault } from "./fault.ts";
import type { Plan } from "./plan.ts";
import { MOST_CORNERS, MOST_KEEP_OUTS, MOST_LEGS, MOST_PLACES_OF_SITE } from "./site.ts";

/**
 * Sites that would take too long. A site may be slow, and its ways are then worked out beside the page, with word of how far that is and a
 * way out of it; but what would take minutes, or more memory than there is, is refused with what it comes to.
 */

/** Pairs of places times corners of walking keep-outs: some ten seconds where every way passes by every keep-out. */
const MOST_CORNERS_PASSED = 100_000_000;
/** Points of a height grid in the boxes of walking keep-outs times their corners: some seconds. */
const MOST_CORNERS_LOOKED_AT = 250_000_000;

/**
 * The lists of a site that are longer than they may be, looked at before anything else of a file is, since reading each of their entries
 * would take long enough to stop the page.
 */
export function oversized(data: unknown): readonly Fault[] {
  const site = isRecord(data) && isRecord(data["site"]) ? data["site"] : {};
  const faults: Fault[] = [];
  const count = (path: string, list: unknown, most: number): void => {
    if (Array.isArray(list) && list.length > most)
      faults.push({ path, message: `${list.length} are too many: at most ${most}` });
  };
  count("site.places", site["places"], MOST_PLACES_OF_SITE);
  count("site.legs", site["legs"], MOST_LEGS);
  const { keepOuts } = site;
  count("site.keepOuts", keepOuts, MOST_KEEP_OUTS);
  if (faults.length > 0 || !Array.isArray(keepOuts)) return faults;
  keepOuts.forEach((one: unknown, k) => {
    const points = isRecord(one) && isRecord(one["shape"]) ? one["shape"]["points"] : [];
    count(`site.keepOuts.${k}.shape.points`, points, MOST_CORNERS);
  });
  return faults;
}

/** Above these the ways of a site take longer than a moment; the ready plans are below. */
const LIGHT_CORNERS_PASSED = 5_000_000;
const LIGHT_POINTS_WALKED = 3_000_000;

/** True where the ways of a plan take so long that a page should not stand still for them. */
export function isHeavySite({ site, ground }: Pick<Plan, "site" | "ground">): boolean {
  const { length } = site.places;
  if (ground) return ground.columns * ground.rows * length > LIGHT_POINTS_WALKED;
  return length * length * cornersOf(site) > LIGHT_CORNERS_PASSED;
}

function cornersOf(site: Plan["site"]): number {
  return outlinesOf(site).reduce((sum, points) => sum + points.length, 0);
}

/** The outlines of walking keep-outs. */
function outlinesOf({ keepOuts }: Plan["site"]) {
  return keepOuts.flatMap(({ kind, shape }) =>
    kind === "walking" && shape.type === "polygon" ? [shape.points] : [],
  );
}

/** What is too much of a site together, whose lists are right one by one. */
export function siteLoadFaults({ site, ground }: Pick<Plan, "site" | "ground">): Fault[] {
  const outlines = outlinesOf(site);
  const corners = cornersOf(site);
  const refuse = (what: string): Fault[] => [
    { path: "site.keepOuts", message: `${what}: ways would take minutes` },
  ];
  if (!ground) {
    const { length } = site.places;
    if (length * length * corners <= MOST_CORNERS_PASSED) return [];
    return refuse(`${corners} corners of walking keep-outs among ${length} places are too many`);
  }
  const across = (values: readonly number[], fromM: number, points: number): number => {
    const cell = (valueM: number): number => Math.min(points, Math.max(0, (valueM - fromM) / ground.cellM));
    return 1 + cell(Math.max(...values)) - cell(Math.min(...values));
  };
  const looked = outlines.reduce((sum, points) => {
    const columns = across(
      points.map(({ eastM }) => eastM),
      ground.westM,
      ground.columns,
    );
    const rows = across(
      points.map(({ northM }) => northM),
      ground.southM,
      ground.rows,
    );
    return sum + columns * rows * points.length;
  }, 0);
  if (looked <= MOST_CORNERS_LOOKED_AT) return [];
  return refuse(`walking keep-outs of ${corners} corners are too large for a height grid as fine as this`);
}

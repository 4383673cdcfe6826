import type {
  Left,
  Line,
  SiteCourse,
  SiteGround,
  SiteLeg,
  SiteLight,
  SitePlace,
  SiteRing,
  SiteWalks,
  Stretch,
  Verdict,
} from "../answers/index.ts";
import { judgeFor } from "../check/index.ts";
import { bearingDeg, farthestM, slopeW } from "../physics/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import {
  contour,
  courseOf,
  gaitsOf,
  heavensOf,
  heightAt,
  hillshade,
  homeOf,
  isochrones,
  type Point,
  reachOn,
  reliefOf,
  sunlitPoints,
  type Ways,
  waysOf,
} from "../terrain/index.ts";
import { explainRing, explainSun, limitsOf } from "./sitefrom.ts";
import { explainWalkback } from "./wayhome.ts";

// The site of a plan: ground, light, limits and ways as a map draws them. Everything dear is remembered by terrain.

/** About this many contours are drawn, so that none is lost among the others. */
const CONTOURS = 16;

/** The ground of the plan with its contours; null where the plan has none. */
export function siteGround(plan: Plan): SiteGround | null {
  if (!plan.ground) return null;
  const grid = reliefOf(plan.ground);
  const { eastM, northM } = landerOf(plan);
  const at = heightAt(grid, eastM, northM);
  const baseM = Number.isNaN(at) ? 0 : at;
  const heights = grid.heightM.map((height) => height - baseM);
  let lowM = Infinity;
  let highM = -Infinity;
  for (const height of heights) {
    if (height < lowM) lowM = height;
    if (height > highM) highM = height;
  }
  const stepM = niceStep((highM - lowM) / CONTOURS);
  const contours = [];
  for (let k = Math.ceil(lowM / stepM); k * stepM < highM; k += 1) {
    // A hair off, so that points exactly on a level do not give stray corners.
    const lines = contour(grid, heights, k * stepM + stepM * 1e-6).map(lineOf);
    contours.push({ levelM: k * stepM, strong: k % 5 === 0, lines });
  }
  const { columns, rows, cellM, westM, southM } = grid;
  return {
    ...{ columns, rows, cellM, westM, southM, lowM, highM, stepM, contours },
    heightM: Float32Array.from(heights),
    source:
      plan.ground.type === "made"
        ? "made by the program from a recipe, not measured"
        : plan.ground.source || "heights of the plan, source not given",
  };
}

/** 1, 2 or 5 times a power of ten, at least `least` and never under a centimetre. */
function niceStep(least: number): number {
  if (!(least > 0.01)) return 0.01;
  const power = 10 ** Math.floor(Math.log10(least));
  return [1, 2, 5, 10].map((one) => one * power).find((one) => one >= least * (1 - 1e-9))!;
}

/** Where the shading comes from when the sun is down or not known. */
const CONVENTION = { azimuthDeg: 315, elevationDeg: 45 };

/** The light at a moment: shading, and where the ground lies in shadow. */
export function siteLight(plan: Plan, atS: number): SiteLight {
  const sun = heavensOf(plan).sunAt(atS);
  const up = sun !== null && sun.elevationDeg > 0;
  const by = up ? "sun" : "convention";
  const from = sun ? [explainSun(plan, atS, sun)] : [];
  if (!plan.ground) return { atS, sun, by, shade: null, lit: null, from };
  const grid = reliefOf(plan.ground);
  const light = up ? sun : CONVENTION;
  const level = Math.sin((light.elevationDeg * Math.PI) / 180);
  // Against level ground, so that a low sun still shows the whole range.
  const shade = Uint8Array.from(hillshade(grid, light), (bright) =>
    Number.isNaN(bright) ? 128 : toneOf(bright / (bright + level)),
  );
  const radiusM = plan.body.radiusM + plan.site.elevationM;
  const lit = sun === null ? null : up ? sunlitPoints(grid, sun, radiusM) : new Uint8Array(shade.length);
  return { atS, sun, by, shade, lit, from };
}

/** How much stronger the shading is drawn than it is: gentle ground would else look level. */
const CONTRAST = 1.5;

function toneOf(share: number): number {
  return Math.round(255 * Math.min(1, Math.max(0, 0.5 + (share - 0.5) * CONTRAST)));
}

/** The limits of the walk back: emergency oxygen, and what the suits named in `left` have. */
export function siteRings(plan: Plan, left: readonly Left[]): readonly SiteRing[] {
  const { back } = gaitsOf(plan);
  const reach = reachOn(plan.site, back);
  const linesAt = (seconds: number): Line[] => {
    if (seconds <= 0 || !Number.isFinite(seconds)) return [];
    if (reach)
      return ownLines(reach.network.footing.grid, isochrones(reach, seconds, back.speedMs)).map(lineOf);
    return [circle(landerOf(plan), farthestM(back.speedMs, seconds, back.detour))];
  };
  // Where somebody is on a ring nobody knows: as hard a way home as the hardest there is from a place.
  const { placeSlopeRad } = homeOf(plan.site, waysOf(plan.site, gaitsOf(plan).planned), back);
  const hardest = placeSlopeRad.reduce(
    (most, one) => (slopeW(1, 1, 1, one) > slopeW(1, 1, 1, most) ? one : most),
    0,
  );
  return limitsOf(plan, left, hardest).map((limit): SiteRing => {
    const { kind, crew, by, seconds } = limit;
    const over = reach ? "grid" : "level";
    return { kind, crew, by, seconds, over, lines: linesAt(seconds), from: explainRing(plan, limit) };
  });
}

/**
 * The lines without those that only go round ground nobody can stand on: they run halfway between two points all along,
 * whatever the limit, and the map shows such ground by itself.
 */
function ownLines(
  { cellM, westM, southM }: { readonly cellM: number; readonly westM: number; readonly southM: number },
  lines: readonly (readonly Point[])[],
): readonly (readonly Point[])[] {
  const halfway = (metres: number): boolean => Math.abs(((metres / cellM) % 1) - 0.5) < 1e-9;
  return lines.filter((line) =>
    line.some(({ eastM, northM }) => !halfway(eastM - westM) && !halfway(northM - southM)),
  );
}

const CORNERS = 128;

/** The lander: most plans have it where their coordinates begin, none must. */
function landerOf({ site }: Plan): Point {
  return site.places.find(({ kind }) => kind === "lander")!;
}

/** A circle about the lander as a line whose corners lie on it: between them it lies inside. */
function circle({ eastM, northM }: Point, radiusM: number): Line {
  const line = new Float64Array(2 * (CORNERS + 1));
  for (let k = 0; k <= CORNERS; k += 1) {
    line[2 * k] = eastM + radiusM * Math.sin((2 * Math.PI * k) / CORNERS);
    line[2 * k + 1] = northM + radiusM * Math.cos((2 * Math.PI * k) / CORNERS);
  }
  return line;
}

/** Who walks where when, every place's way home, and the judge's word on the schedule. */
export function siteWalks(plan: Plan, schedule: Schedule): SiteWalks {
  const gaits = gaitsOf(plan);
  const ways = waysOf(plan.site, gaits.planned);
  const home = homeOf(plan.site, ways, gaits.back);
  const verdict = judgeFor(plan)(schedule);
  const heavens = heavensOf(plan);
  const grid = plan.ground ? reliefOf(plan.ground) : null;
  const lander = landerOf(plan);
  const baseM = grid ? heightAt(grid, lander.eastM, lander.northM) : 0;
  const places = plan.site.places.map((place, i): SitePlace => {
    const { id, eastM, northM } = place;
    const upM = grid ? heightAt(grid, eastM, northM) - baseM : place.upM;
    const [east, north] = [eastM - lander.eastM, northM - lander.northM];
    const distanceM = Math.hypot(east, north);
    const homeS = home.placeS[i]!;
    const homeM = home.placeM[i]!;
    return {
      ...{ id, distanceM, homeS, homeM },
      bearingDeg: bearingDeg(east, north),
      upM: Number.isNaN(upM) ? null : upM,
      lit: heavens.light([place], "lit"),
      shaded: heavens.light([place], "shaded"),
      from: explainWalkback(plan, home, i),
    };
  });
  return { verdict, places, courses: coursesOf(plan, ways, verdict) };
}

function coursesOf(plan: Plan, ways: Ways, verdict: Verdict): SiteCourse[] {
  return verdict.outings.map(({ eva, crew, stretches }) => ({
    eva,
    crew,
    legs: stretches.map((stretch) => legOf(plan, ways, stretch)),
  }));
}

/** The corners of a stretch, each with its time: by the ground where there is one, straight where there is none. */
function legOf(plan: Plan, ways: Ways, { kind, task, span, path, walkM }: Stretch): SiteLeg {
  const at = path.map((id) => ways.index.get(id) ?? ways.lander);
  const corners: number[] = [];
  const put = ({ eastM, northM }: Point, seconds: number): void => {
    corners.push(eastM, northM, seconds);
  };
  const { places } = plan.site;
  put(places[at[0]!]!, span.startS);
  let clockS: number = span.startS;
  // A walk inside a task takes the whole task, a way its own time hop by hop.
  const hops = at.slice(1).map((to, k) => ({ from: at[k]!, to }));
  const walked = kind === "traverse" || hops.length === 0 ? hops : [{ from: at[0]!, to: at.at(-1)! }];
  for (const { from, to } of walked) {
    const cell = from * ways.size + to;
    const seconds = kind === "traverse" ? Math.max(0, ways.durationS[cell]!) : span.endS - span.startS;
    const course = courseOf(ways, places, cell, seconds);
    if (course) course.points.slice(1).forEach((point, i) => put(point, clockS + course.atS[i + 1]!));
    else put(places[to]!, clockS + seconds);
    clockS += seconds;
  }
  return {
    ...{ kind, task, walkM },
    startS: span.startS,
    endS: span.endS,
    fromPlace: path[0]!,
    toPlace: path.at(-1)!,
    course: Float64Array.from(corners),
  };
}

function lineOf(points: readonly Point[]): Line {
  const line = new Float64Array(points.length * 2);
  points.forEach(({ eastM, northM }, k) => {
    line[2 * k] = eastM;
    line[2 * k + 1] = northM;
  });
  return line;
}

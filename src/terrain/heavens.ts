import { instant, type Interval } from "../kernel/index.ts";
import {
  apartDeg,
  type ElevationRange,
  moonEarth,
  moonSun,
  type Observer,
  type SkyDirection,
  sunStretches,
} from "../physics/index.ts";
import { reliefOf, type StoredGround } from "./relief.ts";
import { memory } from "./remember.ts";
import type { Point } from "./shapes.ts";
import { isSeenOver, type Skyline, skylineAt } from "./skyline.ts";

/**
 * When the sky is as a task asks, over a stay: one answer for judge and maker. Each answer is a list of stretches of
 * whole seconds of MET, ascending and apart, true at every look from start to end; null where it is not known.
 *
 * Sun and Earth are looked at once a minute (more seldom in stays beyond three and a half days) and the ends of
 * stretches are then found to the second, rounded inward. Both are seen from the lander's latitude and longitude,
 * 0.03 degrees off for each km a place is away, against the horizon of the place itself. Range: as physics/sky.ts.
 * Not covered: the sun's disc (its centre counts), hills beyond the grid.
 *
 * Where the heights about a place are not known, its horizon is not: no sun or Earth over a level horizon says that it is lit
 * or in view there. Only far below it, so that no relief of the Moon could bring it back, is shadow sure.
 */
export interface Heavens {
  /** The sun inside a range of elevations, level horizon. */
  sun(range: ElevationRange): readonly Interval[] | null;
  /** The ground at all `places` in the sun, or all of it in shadow; null where heights are not known and neither is sure. */
  light(places: readonly Point[], want: "lit" | "shaded"): readonly Interval[] | null;
  /** The sun's azimuth so far from a heading: 0 ahead, 180 behind. */
  sunAngle(headingDeg: number, range: ElevationRange): readonly Interval[] | null;
  /** The Earth over the horizon at all `places`; null where heights are not known and nothing is sure. */
  earth(places: readonly Point[]): readonly Interval[] | null;
  /** Elevations over a level horizon that the sun does not leave from start to end of `span`; null where not known. */
  sunRange(span: Interval): ElevationRange | null;
  /** Where the sun stands at a moment; null where that is not known. */
  sunAt(metS: number): SkyDirection | null;
}

/** What a plan says of its sky; `toGive` names fields that hold a value which nobody has given. */
export interface SkyPlan {
  readonly body: { readonly radiusM: number; readonly ephemeris: "moon" | "none" };
  readonly site: ToBeGiven & {
    readonly latDeg: number;
    readonly lonDeg: number;
    readonly elevationM: number;
  };
  readonly stay: ToBeGiven & { readonly touchdownUtc: string; readonly lengthS: number };
  readonly ground?: StoredGround | undefined;
}

interface ToBeGiven {
  readonly toGive?: readonly string[] | undefined;
}

/** True when the plan tells where sun and Earth stand: it says so of the body, and somebody has said where and when the lander stands. */
function isSkyKnown({ body, site, stay }: SkyPlan): boolean {
  const guessed = [...(site.toGive ?? []), ...(stay.toGive ?? [])];
  return body.ephemeris !== "none" && !SKY_FIELDS.some((field) => guessed.includes(field));
}

const SKY_FIELDS = ["latDeg", "lonDeg", "touchdownUtc"];

/** Seconds between two looks for a range, and the fastest that an elevation over the Moon changes (physics/stretches). */
const GLANCE_S = 600;
const FASTEST_DEG_H = 0.564;
const LOOK_S = 60;
const MOST_LOOKS = 5000;

/** The Moon's highest and lowest ground against its mean radius, m, rounded outward. Value from memory: laser altimetry. */
const HIGHEST_M = 10_800;
const LOWEST_M = -9200;

/** How far below level the lowest horizon lies that there can be: that of the highest ground over the lowest, degrees. */
function farthestDipDeg(radiusM: number): number {
  return (Math.acos((radiusM + LOWEST_M) / (radiusM + HIGHEST_M)) * 180) / Math.PI;
}

/** Directions of sun and Earth at the looks of a stay. */
interface Looks {
  readonly atS: readonly number[];
  readonly sun: readonly SkyDirection[];
  readonly earth: readonly SkyDirection[];
}

const taken = memory<Looks>(4);
const ranges = memory<ElevationRange>(32);
const known = memory<{ readonly list: readonly Interval[] | null }>(2000);

/** Where nobody knows the sky: over some bodies, or while nobody has said where and when the lander stands. */
const UNKNOWN: Heavens = {
  sun: () => null,
  light: () => null,
  sunAngle: () => null,
  earth: () => null,
  sunRange: () => null,
  sunAt: () => null,
};

/** Elevation of the sun over the lander's level horizon at a moment, degrees; null where nobody knows where it stands. */
export function sunDegOver(plan: SkyPlan, metS: number): number | null {
  if (!isSkyKnown(plan)) return null;
  return moonSun(Date.parse(plan.stay.touchdownUtc) + metS * 1000, observerIn(plan)).elevationDeg;
}

function observerIn({ body, site }: SkyPlan): Observer {
  return { latDeg: site.latDeg, lonDeg: site.lonDeg, radiusM: body.radiusM + site.elevationM };
}

/** True only where it is sure. */
function isSeen(line: Skyline | null, seen: SkyDirection): boolean {
  return line !== null && isSeenOver(line, seen) === "seen";
}

/** The heavens over a plan. */
export function heavensOf(plan: SkyPlan): Heavens {
  const { body, stay } = plan;
  if (!isSkyKnown(plan)) return UNKNOWN;
  const observer = observerIn(plan);
  const touchdownMs = Date.parse(stay.touchdownUtc);
  const grid = plan.ground ? reliefOf(plan.ground) : null;
  const whole = { startS: instant(0), endS: instant(stay.lengthS) };
  const over = `${touchdownMs} ${observer.latDeg} ${observer.lonDeg} ${observer.radiusM}`;
  const about = `${over} ${body.radiusM} ${stay.lengthS} ${grid?.key ?? ""}`;
  const once = (key: string, make: () => readonly Interval[] | null) =>
    known.of(`${about} ${key}`, () => ({ list: make() })).list;
  const looks = (): Looks => looksOf(touchdownMs, observer, stay.lengthS);
  const sunAt = (metS: number): SkyDirection => moonSun(touchdownMs + metS * 1000, observer);
  const earthAt = (metS: number): SkyDirection => moonEarth(touchdownMs + metS * 1000, observer);
  /** Horizons of all places, null for one about which heights are not known. */
  const horizons = (places: readonly Point[]): readonly (Skyline | null)[] =>
    places.map((place) => (grid ? skylineAt(grid, place, observer.radiusM) : null));
  const name = (places: readonly Point[]): string =>
    places.map(({ eastM, northM }) => (grid ? `${eastM} ${northM}` : "")).join(", ");
  const lowestDeg = -farthestDipDeg(body.radiusM);
  // Like `isSeen` only where it is sure.
  const isHidden = (line: Skyline | null, seen: SkyDirection): boolean =>
    line ? isSeenOver(line, seen) === "hidden" : seen.elevationDeg <= lowestDeg;
  /** When `is` at all `lines`; null where no moment is sure and it is not sure that there is none either. */
  const stretchesOf = (
    lines: readonly (Skyline | null)[],
    seen: readonly SkyDirection[],
    seenAt: (metS: number) => SkyDirection,
    is: typeof isSeen,
    isNot: typeof isSeen,
  ): readonly Interval[] | null => {
    const { atS } = looks();
    const sure = stretchesWhere(atS, seen, seenAt, (one) => lines.every((line) => is(line, one)));
    if (sure.length > 0 || !lines.includes(null)) return sure;
    return seen.every((one) => lines.some((line) => isNot(line, one))) ? [] : null;
  };

  return {
    sun: (range) =>
      once(`sun ${range.leastDeg} ${range.greatestDeg}`, () =>
        sunStretches(touchdownMs, observer, range, whole),
      ),
    light: (places, want) =>
      once(`${want} ${name(places)}`, () => {
        const [is, isNot] = want === "lit" ? [isSeen, isHidden] : [isHidden, isSeen];
        return stretchesOf(horizons(places), looks().sun, sunAt, is, isNot);
      }),
    sunAngle: (headingDeg, { leastDeg, greatestDeg }) =>
      once(`angle ${headingDeg} ${leastDeg} ${greatestDeg}`, () =>
        stretchesWhere(looks().atS, looks().sun, sunAt, ({ azimuthDeg }) =>
          within(apartDeg(headingDeg, azimuthDeg), leastDeg, greatestDeg),
        ),
      ),
    earth: (places) =>
      once(`earth ${name(places)}`, () =>
        stretchesOf(horizons(places), looks().earth, earthAt, isSeen, isHidden),
      ),
    sunRange: ({ startS, endS }) =>
      ranges.of(`${over} ${startS} ${endS}`, () => rangeOf(sunAt, startS, endS)),
    sunAt,
  };
}

function within(value: number, least: number, greatest: number): boolean {
  return value >= least && value <= greatest;
}

/** Between which elevations the sun surely stays from `startS` to `endS`: those of some glances, and as far as it climbs between. */
function rangeOf(sunAt: (metS: number) => SkyDirection, startS: number, endS: number): ElevationRange {
  const degrees = [sunAt(endS).elevationDeg];
  for (let at = startS; at < endS; at += GLANCE_S) degrees.push(sunAt(at).elevationDeg);
  const swingDeg = (FASTEST_DEG_H * GLANCE_S) / 3600;
  return { leastDeg: Math.min(...degrees) - swingDeg, greatestDeg: Math.max(...degrees) + swingDeg };
}

function looksOf(touchdownMs: number, observer: Observer, lengthS: number): Looks {
  const stepS = Math.max(LOOK_S, Math.ceil(lengthS / MOST_LOOKS));
  const key = `${touchdownMs} ${observer.latDeg} ${observer.lonDeg} ${observer.radiusM} ${lengthS}`;
  return taken.of(key, () => {
    const atS: number[] = [];
    for (let at = 0; at < lengthS; at += stepS) atS.push(at);
    atS.push(lengthS);
    return {
      atS,
      sun: atS.map((at) => moonSun(touchdownMs + at * 1000, observer)),
      earth: atS.map((at) => moonEarth(touchdownMs + at * 1000, observer)),
    };
  });
}

/** The stretches in which `holds` is true, its changes between two looks found to the second by halving. */
function stretchesWhere(
  atS: readonly number[],
  looks: readonly SkyDirection[],
  lookAt: (metS: number) => SkyDirection,
  holds: (seen: SkyDirection) => boolean,
): Interval[] {
  const found: Interval[] = [];
  let startS: number | null = null;
  let before = false;
  looks.forEach((seen, k) => {
    const now = holds(seen);
    if (now && !before)
      startS = k === 0 ? atS[0]! : firstWhere(atS[k - 1]!, atS[k]!, (at) => holds(lookAt(at)));
    if (!now && before && startS !== null) {
      const endS = firstWhere(atS[k - 1]!, atS[k]!, (at) => !holds(lookAt(at))) - 1;
      if (endS > startS) found.push({ startS: instant(startS), endS: instant(endS) });
      startS = null;
    }
    before = now;
  });
  const lastS = atS.at(-1)!;
  if (startS !== null && lastS > startS) found.push({ startS: instant(startS), endS: instant(lastS) });
  return found;
}

/** The first whole second after `falseS`, at most `trueS`, at which `is` holds; it changes once between them. */
function firstWhere(falseS: number, trueS: number, is: (atS: number) => boolean): number {
  let low = falseS;
  let high = trueS;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (is(middle)) high = middle;
    else low = middle;
  }
  return high;
}

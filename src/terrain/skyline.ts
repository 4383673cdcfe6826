import { pulse } from "../kernel/index.ts";
import { dipDeg, sightDeg, type SkyDirection } from "../physics/index.ts";
import { blocksOf } from "./blocks.ts";
import { Crossing } from "./crossing.ts";
import { type HeightGrid, heightAt } from "./grid.ts";
import type { Point } from "./shapes.ts";

/**
 * The horizon about a point of a height grid, in any direction, from both sides: nowhere does the bilinear ground stand
 * higher than the most, and somewhere it stands as high as the least.
 *
 * A ray goes cell by cell to the edge of the grid. On a cell the ground under it is a parabola h(s); seen from height e
 * at distance s round a body of radius R, with p = tan(s / 2R), it has the tangent of elevation
 * `(h - e) / (2 p (R + h)) - p (2R + h + e) / (2 (R + h))`, exactly. Over a piece of the cell that is at most
 * `k (h(s) - e) / s - m s / 2R` with the least or greatest k and the least m of the piece, and the greatest of that is
 * closed form; the piece is halved until less than a millionth of a degree lies between the bound and a point of the ground.
 *
 * Beyond the grid the ground counts as smooth, at the level of the eye's own footing: hills out there are not seen.
 * Where unknown ground lies before known ground the most is straight up, and only the least is known. Range: eyes up to
 * 100 m over the ground, rays up to a quarter round the body. Not covered: what is smaller than a cell, near ground
 * above all.
 */
export interface Skyline {
  readonly grid: HeightGrid;
  readonly point: Point;
  readonly footM: number;
  readonly eyeM: number;
  readonly radiusM: number;
}

/** Eyes of somebody in a suit. */
const EYE_M = 1.5;
/** Between the two sides, as a tangent. */
const NEAR_ENOUGH = 1e-8;
/** More than the noise of these sums. */
const NOISE = 1e-11;

/** The horizon seen from `point`; null where the height of the ground there is not known. */
export function skylineAt(grid: HeightGrid, point: Point, radiusM: number, eyeM = EYE_M): Skyline | null {
  const footM = heightAt(grid, point.eastM, point.northM);
  return Number.isNaN(footM) ? null : { grid, point, footM, eyeM, radiusM };
}

/**
 * Whether what stands in the sky there is surely seen over the horizon or surely hidden behind it; unsure too where unknown
 * ground lies before known ground. The look ends at the first ground that hides it.
 */
export function isSeenOver(
  line: Skyline,
  { azimuthDeg, elevationDeg }: SkyDirection,
): "seen" | "hidden" | "unsure" {
  if (elevationDeg <= -dipDeg(line.eyeM, line.radiusM)) return "hidden";
  if (elevationDeg >= 90) return "seen";
  pulse();
  const sightline = Math.tan((elevationDeg * Math.PI) / 180) - NOISE;
  return new LineOfSight(line, azimuthDeg, sightline).along();
}

/** A look along one line of sight, and what it has come to so far. */
class LineOfSight {
  private readonly grid: HeightGrid;
  private readonly point: Point;
  private readonly footM: number;
  private readonly eyeM: number;
  private readonly radiusM: number;
  /** The line of sight, as a tangent. */
  private readonly sightline: number;
  /** The direction, m a m; and where the eye is and how fast that goes, cells. */
  private readonly east: number;
  private readonly north: number;
  private readonly u0: number;
  private readonly v0: number;
  private readonly perM: { readonly u: number; readonly v: number };
  /** The highest point found, as a tangent, the line of sight while none is over it; and whether some ground may be. */
  private least: number;
  private mayHide = false;
  private isUnknown = false;
  private isUnsure = false;
  /** Height over the eye's footing on the cell under the ray: a + b s + c s^2. */
  private a = 0;
  private b = 0;
  private c = 0;

  constructor({ grid, point, footM, eyeM, radiusM }: Skyline, azimuthDeg: number, sightline: number) {
    const { cellM, westM, southM } = grid;
    const angle = (azimuthDeg * Math.PI) / 180;
    this.grid = grid;
    this.point = point;
    this.footM = footM;
    this.eyeM = eyeM;
    this.radiusM = radiusM;
    this.sightline = sightline;
    this.east = Math.sin(angle);
    this.north = Math.cos(angle);
    this.u0 = (point.eastM - westM) / cellM;
    this.v0 = (point.northM - southM) / cellM;
    this.perM = { u: this.east / cellM, v: this.north / cellM };
    this.least = sightline;
  }

  along(): "seen" | "hidden" | "unsure" {
    const { grid, point } = this;
    const blocks = blocksOf(grid);
    const lengthM = (Math.PI / 2) * this.radiusM;
    const outer = new Crossing(blocks.net, point.eastM, point.northM, this.east, this.north, lengthM);
    while (outer.next() && this.least === this.sightline) {
      const topM = blocks.topM[outer.row * (blocks.net.columns - 1) + outer.column]! - this.footM;
      if (this.atMost(topM, outer.startM, outer.endM) <= this.least) this.isUnsure ||= this.isUnknown;
      else this.lookInside(outer.startM, outer.endM);
    }
    if (this.least > this.sightline + NOISE) return "hidden";
    return this.least > this.sightline || this.mayHide || this.isUnsure ? "unsure" : "seen";
  }

  /** Looks for higher ground between two distances, cell by cell. */
  private lookInside(fromM: number, toM: number): void {
    const { east, north, perM } = this;
    const { grid, point } = this;
    const { columns, heightM } = grid;
    const line = new Crossing(
      grid,
      point.eastM + east * fromM,
      point.northM + north * fromM,
      east,
      north,
      toM - fromM,
    );
    while (line.next() && this.least === this.sightline) {
      const { column, row } = line;
      const startM = fromM + line.startM;
      const endM = fromM + line.endM;
      const at = row * columns + column;
      const sw = heightM[at]!;
      const se = heightM[at + 1]!;
      const nw = heightM[at + columns]!;
      const ne = heightM[at + columns + 1]!;
      const topM = Math.max(sw, se, nw, ne) - this.footM;
      if (Number.isNaN(topM)) {
        this.isUnknown = true;
        continue;
      }
      this.isUnsure ||= this.isUnknown;
      if (this.atMost(topM, startM, endM) <= this.least) continue;
      const twist = ne - se - nw + sw;
      const u = this.u0 - column;
      const v = this.v0 - row;
      // At the eye's own footing it is 0 but for noise, which must not be divided by nothing.
      this.a = startM === 0 ? 0 : sw + (se - sw) * u + (nw - sw) * v + twist * u * v - this.footM;
      this.b = (se - sw) * perM.u + (nw - sw) * perM.v + twist * (u * perM.v + v * perM.u);
      this.c = twist * perM.u * perM.v;
      this.search(startM, endM);
    }
  }

  /** Nothing up to `topM` high between the two distances stands higher than this, as a tangent: quick, and wide. */
  private atMost(topM: number, startM: number, endM: number): number {
    const { eyeM, radiusM } = this;
    const over = topM - eyeM;
    const share = radiusM / (radiusM + topM);
    // 2 R tan(s / 2R) is at least s, and within a quarter round at most s (1 + (s / 2R)^2).
    const first =
      over >= 0 ? (over * share) / startM : (over * share) / endM / (1 + (endM / (2 * radiusM)) ** 2);
    return first - (startM / (4 * radiusM)) * (1 + share + (eyeM * share) / radiusM);
  }

  /** Looks for higher ground between two distances on the cell at hand. */
  private search(startM: number, endM: number): void {
    const { a, b, c, eyeM, radiusM } = this;
    const [bound, atM] = this.boundOn(startM, endM);
    if (bound <= this.least) return;
    const seen = Math.tan((sightDeg(atM, a + b * atM + c * atM * atM, eyeM, radiusM) * Math.PI) / 180);
    if (seen > this.least) this.least = seen;
    // Against what was found, or where nothing over the line of sight was, against the ground of the piece.
    const found = this.least > this.sightline ? this.least : seen;
    if (bound <= found + NEAR_ENOUGH || endM - startM < 1e-6) {
      this.mayHide = true;
      return;
    }
    const middleM = (startM + endM) / 2;
    this.search(startM, middleM);
    this.search(middleM, endM);
  }

  /** No point between the two distances stands higher than this, as a tangent; and where one stands about so high. */
  private boundOn(startM: number, endM: number): readonly [bound: number, atM: number] {
    const { a, b, c, eyeM, radiusM } = this;
    const first = a + b * startM + c * startM * startM;
    const last = a + b * endM + c * endM * endM;
    const turnM = c === 0 ? -1 : -b / (2 * c);
    const turn = turnM > startM && turnM < endM ? a + b * turnM + c * turnM * turnM : first;
    const low = Math.min(first, last, turn);
    const high = Math.max(first, last, turn);
    // s / 2Rp falls with s from 1 on; (2R + h + e) / 2(R + h) falls with h.
    const near = startM === 0 ? 1 : startM / (2 * radiusM) / Math.tan(startM / (2 * radiusM));
    const far = endM / (2 * radiusM) / Math.tan(endM / (2 * radiusM));
    const fall = (2 * radiusM + high + eyeM) / (2 * (radiusM + high)) / near / (2 * radiusM);
    const wide = this.peakOf((near * radiusM) / (radiusM + low), fall, startM, endM);
    const narrow = this.peakOf((far * radiusM) / (radiusM + high), fall, startM, endM);
    return wide[0] >= narrow[0] ? wide : narrow;
  }

  /** The greatest of `k (h(s) - e) / s - fall s` between two distances, and where. */
  private peakOf(
    k: number,
    fall: number,
    startM: number,
    endM: number,
  ): readonly [peak: number, atM: number] {
    const { a, b, c, eyeM } = this;
    const over = k * (a - eyeM);
    const bend = k * c - fall;
    const tangentAt = (s: number): number => (over === 0 ? 0 : over / s) + k * b + bend * s;
    const start = tangentAt(startM);
    const end = tangentAt(endM);
    if (over < 0 && bend < 0) {
      const atM = Math.sqrt(over / bend);
      if (atM > startM && atM < endM) return [tangentAt(atM), atM];
    }
    return start >= end ? [start, startM] : [end, endM];
  }
}

import { done, failed, type Outcome } from "../../kernel/index.ts";
import { metres } from "../../words/index.ts";
import { degreesOf, metresOf } from "../sphere.ts";
import type { HeightSource, Net } from "./source.ts";
import { projectionOfWkt } from "./wkt.ts";

/** The plan's site on its body: latitude and longitude are those of the point from which east and north are counted. */
export interface SiteOnBody {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly radiusM: number;
  /** Where the lander stands from there; at the point itself when left out. */
  readonly lander?: { readonly eastM: number; readonly northM: number } | undefined;
}

/** What the point about which a file is laid is called: the lander only where that stands there. */
export function zeroName({ lander }: Pick<SiteOnBody, "lander">): string {
  return !lander || (lander.eastM === 0 && lander.northM === 0) ? "the lander" : "the plan's 0 east, 0 north";
}

/** What a person answers where the file leaves something open, and how much of it is wanted. */
export interface HeightAnswers {
  /** PROJ or WKT 1 words for a file that gives no projection. */
  readonly projection?: string | undefined;
  /** For a file without projection: bearing of its upward axis (growing y) from true north, degrees. */
  readonly upDeg?: number | undefined;
  /** For a file without projection: the lander in the file's coordinates; the middle of the file when left out. */
  readonly lander?: { readonly x: number; readonly y: number } | undefined;
  /** Metres for one of the file's heights, where the file does not say. */
  readonly metresPerHeight?: number | undefined;
  /** A value of the file that stands for unknown, besides those that it names. */
  readonly unknown?: number | undefined;
  /** Points within this of the lander to the east and north are taken, m; all when left out. */
  readonly reachM?: number | undefined;
  /** From point to point as taken, m; as the file has it when left out. */
  readonly spacingM?: number | undefined;
  readonly unit?: "mm" | "cm" | undefined;
}

/** Something that the file leaves open or that speaks against it, in words. */
export interface HeightQuestion {
  readonly about: "projection" | "unit" | "place" | "body" | "size" | "unknown";
  readonly words: string;
}

/** A file laid on the ground about the point from which the plan counts. */
export interface Placed {
  /** Column and row, with fractions, of a point; not numbers where the projection does not lead. */
  cellAt(eastM: number, northM: number): readonly [column: number, row: number];
  /** Metres from that point of a column and row. */
  localAt(column: number, row: number): { readonly eastM: number; readonly northM: number };
}

const AT_ZERO = { eastM: 0, northM: 0 };

/** More between the body of the file and that of the plan is another body: as a share of the radius. */
const RADIUS_WITHIN = 0.001;

/** `source` about the point from which the plan counts. */
export async function placedOn(
  source: HeightSource,
  site: SiteOnBody,
  answers: HeightAnswers,
): Promise<Outcome<Placed, HeightQuestion>> {
  const words = source.projection ?? answers.projection?.trim();
  if (words) return projected(source, site, words);
  if (answers.upDeg === undefined) {
    const open = `The file holds ${source.projectionWords}: it does not say where it lies nor where north is.`;
    return failed({ about: "projection", words: open });
  }
  return done(plain(source, answers, answers.upDeg, site.lander ?? AT_ZERO));
}

/** By a projection: the lander is where the plan's latitude and longitude are in the file. */
async function projected(
  source: HeightSource,
  site: SiteOnBody,
  words: string,
): Promise<Outcome<Placed, HeightQuestion>> {
  const read = words.startsWith("+") ? { proj: words, words } : projectionOfWkt(words);
  if (read.proj === null)
    return failed({
      about: "projection",
      words: `The projection cannot be read: these words hold ${read.words}.`,
    });
  const opened = await mapOf(read.proj);
  if (!opened.ok) return opened;
  const { radiusM, isDegrees, toMap, toDegrees } = opened.value;
  if (Math.abs(radiusM - site.radiusM) > RADIUS_WITHIN * site.radiusM) {
    return failed({
      about: "body",
      words: `The file is of a body of ${metres(radiusM, "given")} radius, the plan's has ${metres(site.radiusM, "given")}.`,
    });
  }
  const { net, columns, rows } = source;
  const middle = ofCell(net, (columns - 1) / 2, (rows - 1) / 2);
  const back = toCell(net);
  // Degrees may be counted from 0 to 360: that turn of the meridian is meant which lies nearest to the file.
  const near = (x: number): number => (isDegrees ? x + 360 * Math.round((middle[0] - x) / 360) : x);
  const placed: Placed = {
    cellAt(eastM, northM) {
      const [x, y] = toMap(degreesOf(site, eastM, northM));
      return back(near(x), y);
    },
    localAt(column, row) {
      const [lonDeg, latDeg] = toDegrees(ofCell(net, column, row));
      return metresOf(site, lonDeg, latDeg);
    },
  };
  const [column, row] = placed.cellAt(0, 0);
  if (column >= 0 && row >= 0 && column <= columns - 1 && row <= rows - 1) return done(placed);
  return failed({ about: "place", words: awayWords(source, placed, site, column, row, toDegrees) });
}

type Pair = [number, number];

/** A map by its projection: from degrees to its coordinates and back; not numbers where it does not lead. */
interface ProjectedMap {
  readonly radiusM: number;
  /** Its coordinates are longitude and latitude themselves. */
  readonly isDegrees: boolean;
  toMap(degrees: Pair): Pair;
  toDegrees(place: Pair): Pair;
}

/** The map of a projection in PROJ's words. */
async function mapOf(proj: string): Promise<Outcome<ProjectedMap, HeightQuestion>> {
  // Fetched when asked for: nobody else needs it.
  const { default: proj4 } = await import("proj4");
  try {
    const body = new proj4.Proj(proj) as unknown as {
      readonly a: number;
      readonly b: number;
      readonly projName?: string;
    };
    // From degrees on the same body, so that nothing is moved from one body to another.
    const across = proj4(`+proj=longlat +a=${body.a} +b=${body.b} +no_defs`, proj);
    return done({
      radiusM: body.a,
      isDegrees: body.projName === "longlat",
      toMap: (degrees) => reached((one) => across.forward(one), degrees),
      toDegrees: (place) => reached((one) => across.inverse(one), place),
    });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return failed({ about: "projection", words: `The projection cannot be read: ${why}.` });
  }
}

/** What comes of `at`. A projection refuses what it does not reach, each in its own way. */
function reached(turn: (at: Pair) => Pair, at: Pair): Pair {
  try {
    const [x, y] = turn(at);
    return Number.isFinite(x) && Number.isFinite(y) ? [x, y] : [NaN, NaN];
  } catch {
    return [NaN, NaN];
  }
}

function awayWords(
  { net, columns, rows }: HeightSource,
  placed: Placed,
  site: SiteOnBody,
  column: number,
  row: number,
  toDegrees: ProjectedMap["toDegrees"],
): string {
  const [lonDeg, latDeg] = toDegrees(ofCell(net, (columns - 1) / 2, (rows - 1) / 2));
  const edge = placed.localAt(
    Math.min(columns - 1, Math.max(0, Number.isFinite(column) ? column : 0)),
    Math.min(rows - 1, Math.max(0, Number.isFinite(row) ? row : 0)),
  );
  const awayM = Math.hypot(edge.eastM, edge.northM);
  const name = zeroName(site).replace(/^the (?:plan's )?/, "The plan's ");
  const how = Number.isFinite(awayM) ? metres(awayM, "up") : "far";
  return (
    `${name} at latitude ${site.latDeg}, longitude ${site.lonDeg} lies ${how} outside the file, whose ` +
    `middle is at latitude ${rounded(latDeg)}, longitude ${rounded(lonDeg)}.`
  );
}

function rounded(degrees: number): number {
  return Math.round(degrees * 1e4) / 1e4;
}

/** Without a projection: the file's axes as a person says they lie, one of its coordinates as long everywhere. */
function plain(
  { net, columns, rows, metresPerCoordinate }: HeightSource,
  answers: HeightAnswers,
  upDeg: number,
  lander: NonNullable<SiteOnBody["lander"]>,
): Placed {
  const [landerX, landerY] = answers.lander
    ? [answers.lander.x, answers.lander.y]
    : ofCell(net, (columns - 1) / 2, (rows - 1) / 2);
  const turn = (upDeg * Math.PI) / 180;
  // Quarter turns exactly.
  const [sine, cosine] = [Math.sin(turn), Math.cos(turn)].map((one) => Math.round(one * 1e15) / 1e15) as [
    number,
    number,
  ];
  // The lander is where that was said; the plan counts from there less where it stands.
  const x0 = landerX - (lander.eastM * cosine - lander.northM * sine) / metresPerCoordinate;
  const y0 = landerY - (lander.eastM * sine + lander.northM * cosine) / metresPerCoordinate;
  const back = toCell(net);
  return {
    cellAt: (eastM, northM) =>
      back(
        x0 + (eastM * cosine - northM * sine) / metresPerCoordinate,
        y0 + (eastM * sine + northM * cosine) / metresPerCoordinate,
      ),
    localAt(column, row) {
      const [x, y] = ofCell(net, column, row);
      const [right, up] = [(x - x0) * metresPerCoordinate, (y - y0) * metresPerCoordinate];
      return { eastM: right * cosine + up * sine, northM: up * cosine - right * sine };
    },
  };
}

function ofCell(
  { x0, xByColumn, xByRow, y0, yByColumn, yByRow }: Net,
  column: number,
  row: number,
): [number, number] {
  return [x0 + xByColumn * column + xByRow * row, y0 + yByColumn * column + yByRow * row];
}

function toCell({ x0, xByColumn, xByRow, y0, yByColumn, yByRow }: Net) {
  const size = xByColumn * yByRow - xByRow * yByColumn;
  return (x: number, y: number): [number, number] => [
    ((x - x0) * yByRow - (y - y0) * xByRow) / size,
    ((y - y0) * xByColumn - (x - x0) * yByColumn) / size,
  ];
}

import type { Left, SiteGround, SiteLight, SiteRing, SiteWalks } from "../answers/index.ts";
import type { Engine } from "../engine/calls.ts";
import { walkLines } from "../exchange/export/walklines.ts";
import { planGeoJson, readGeoJson } from "../exchange/geojson.ts";
import {
  type GivenFile,
  type HeightAnswers,
  heightsAmong,
  type HeightQuestion,
  type HeightSource,
  layingOf,
  openHeights,
  type SiteOnBody,
  takeHeights,
  layingWords,
  takenWords,
} from "../exchange/heightgrid/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { Session } from "./session.ts";
import { wordsOf } from "./files.ts";

/** The site of the open plan: what the engine says of it, places put elsewhere, and files in and out. */
export interface SiteWork {
  ground(plan: Plan, signal: AbortSignal): Promise<SiteGround | null>;
  light(plan: Plan, atS: number, signal: AbortSignal): Promise<SiteLight>;
  rings(plan: Plan, left: readonly Left[], signal: AbortSignal): Promise<readonly SiteRing[]>;
  /** Who walks where on the plan's own day, or on another one of the same plan. */
  walks(plan: Plan, signal: AbortSignal, schedule?: Schedule): Promise<SiteWalks>;
  /** Puts a place elsewhere as one step of the history; the answer is why not, or null when it was done. */
  movePlace(id: string, eastM: number, northM: number): string | null;
  /** Places, keep-outs, the ways of the day and the given rings as GeoJSON. */
  geoJson(walks: SiteWalks | null, rings: readonly SiteRing[]): string;
  /** Adds the places and keep-outs of a GeoJSON file; the plan is untouched when it is refused. */
  addGeoJson(file: SiteFile): Promise<Taken>;
  /**
   * Opens a GeoTIFF or ASCII grid file of heights, with the projection and mask that lie beside it where they were chosen together;
   * what is wrong with it in words when it is none.
   */
  openHeights(files: readonly SiteFile[]): Promise<HeightSource | Taken>;
  /** How heights of an opened file would lie, in words; else what the file leaves open or what speaks against it. */
  layHeights(source: HeightSource, answers: HeightAnswers): Promise<string | readonly HeightQuestion[]>;
  /**
   * Replaces the ground by the heights of an opened file, as one step of the history; else what the file leaves open or
   * what speaks against it, and the plan is untouched.
   */
  takeHeights(source: HeightSource, answers: HeightAnswers): Promise<Taken | readonly HeightQuestion[]>;
}

/** A file as the browser hands it over. */
export interface SiteFile {
  readonly name: string;
  /** Bytes. */
  readonly size: number;
  text(): Promise<string>;
  arrayBuffer(): Promise<ArrayBuffer>;
}

/** What came of a file, in words. */
export interface Taken {
  readonly ok: boolean;
  readonly words: string;
  /** More of it, line by line. */
  readonly lines?: readonly string[];
}

/** Larger files are refused unread, bytes. */
const LARGEST = 64 * 1024 * 1024;

/** The plan with a place elsewhere, whole decimetres; the same plan when it is there already. */
export function withPlaceAt(plan: Plan, id: string, eastM: number, northM: number): Plan {
  const round = (metres: number): number => Math.round(metres * 10) / 10 + 0;
  const [east, north] = [round(eastM), round(northM)];
  const here = plan.site.places.find((one) => one.id === id);
  if (!here || (here.eastM === east && here.northM === north)) return plan;
  const places = plan.site.places.map((one) => (one === here ? { ...one, eastM: east, northM: north } : one));
  return { ...plan, site: { ...plan.site, places } };
}

function placeOf({ body, site }: Plan): SiteOnBody {
  const lander = site.places.find(({ kind }) => kind === "lander");
  return { latDeg: site.latDeg, lonDeg: site.lonDeg, radiusM: body.radiusM, lander };
}

function refused(name: string, why: string): Taken {
  return { ok: false, words: `${name} was not taken: ${why}. The plan is as it was.` };
}

export function siteWork(session: Session, engine: Engine): SiteWork {
  const open = (): Plan => session.state.getState().plan;

  return {
    ground: (plan, signal) => engine.siteGround(plan, {}, { signal }),
    light: (plan, atS, signal) => engine.siteLight(plan, { atS }, { signal }),
    rings: (plan, left, signal) => engine.siteRings(plan, { left }, { signal }),
    walks: (plan, signal, schedule = plan.schedule) => engine.siteWalks(plan, { schedule }, { signal }),
    movePlace(id, eastM, northM) {
      const place = open().site.places.find((one) => one.id === id);
      if (!place) return "there is no such place";
      if (place.kind === "lander") return "the lander is where coordinates begin and stays there";
      const put = session.edit(`Move ${place.name}`, (plan) => ({
        site: withPlaceAt(plan, id, eastM, northM).site,
      }));
      return put.ok ? null : (put.error[0]?.message ?? "the plan cannot take it");
    },
    geoJson: (walks, rings) => planGeoJson(open(), walks ? walkLines(open(), walks, rings) : []),
    addGeoJson: (file) => addGeoJson(session, file),
    ...heightFiles(session),
  };
}

/** The files of heights. */
function heightFiles(session: Session): Pick<SiteWork, "openHeights" | "layHeights" | "takeHeights"> {
  const onBody = (): SiteOnBody => placeOf(session.state.getState().plan);
  return {
    async openHeights(files) {
      const sorted = heightsAmong(files);
      if (typeof sorted === "string") return refused(files.map(({ name }) => name).join(", "), sorted);
      const { grid, beside } = sorted;
      if (files.reduce((sum, { size }) => sum + size, 0) > LARGEST)
        return refused(grid.name, "the file is too large");
      try {
        const bytesOf = async (file: SiteFile): Promise<GivenFile> => ({
          name: file.name,
          bytes: await file.arrayBuffer(),
        });
        const others = await Promise.all(beside.map(bytesOf));
        const opened = await openHeights(grid.name, await grid.arrayBuffer(), others);
        return opened.ok ? opened.value : refused(grid.name, opened.error);
      } catch (error) {
        return refused(grid.name, `it cannot be read, ${wordsOf(error)}`);
      }
    },
    async layHeights(source, answers) {
      const found = await layingOf(source, onBody(), answers);
      return found.ok ? layingWords(found.value) : found.error;
    },
    async takeHeights(source, answers) {
      let found: Awaited<ReturnType<typeof takeHeights>>;
      try {
        found = await takeHeights(source, onBody(), answers);
      } catch (error) {
        return refused(source.name, `it cannot be read, ${wordsOf(error)}`);
      }
      if (!found.ok) return found.error;
      const { ground, taken } = found.value;
      const put = session.edit(`Ground from ${source.name}`, () => ({ ground }));
      if (!put.ok) return refused(source.name, put.error[0]?.message ?? "the plan cannot take it");
      return {
        ok: true,
        words: `${source.name} was taken. Undo brings the earlier ground back.`,
        lines: takenWords(taken),
      };
    },
  };
}

async function addGeoJson(session: Session, file: SiteFile): Promise<Taken> {
  if (file.size > LARGEST) return refused(file.name, "the file is too large");
  let text: string;
  try {
    text = await file.text();
  } catch (error) {
    return refused(file.name, `it cannot be read, ${wordsOf(error)}`);
  }
  const read = readGeoJson(text, session.state.getState().plan);
  if (!read.ok) return refused(file.name, read.error);
  const { places, keepOuts, leftOut } = read.value;
  if (places.length + keepOuts.length === 0) return refused(file.name, "it has no points and no polygons");
  const put = session.edit(`Add places from ${file.name}`, ({ site }) => ({
    site: {
      ...site,
      places: [...site.places, ...places],
      keepOuts: [...site.keepOuts, ...keepOuts],
    },
  }));
  if (!put.ok) return refused(file.name, put.error[0]?.message ?? "the plan cannot take it");
  const others = leftOut > 0 ? `; ${leftOut} other features left out` : "";
  return {
    ok: true,
    words: `${file.name}: ${places.length} places and ${keepOuts.length} keep-outs added${others}.`,
  };
}

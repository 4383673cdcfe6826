import { type BodyWords, bodyWords, degreesOn } from "./body.ts";
import { NO_POLE, settlePole } from "./pole.ts";
import { type Projection, projectionOfWkt } from "./wkt.ts";

/**
 * The projection that the keys of a GeoTIFF describe (OGC 19-008r4, annex C; parameter names of the GeoTIFF projection
 * list), in PROJ's words. Only what is given by numbers: a code of a register is a name, and its numbers are not in the
 * file.
 */

export type GeoKeys = Readonly<Record<string, unknown>>;

const USER_DEFINED = 32767;
const PROJECTED = 1;
const GEOGRAPHIC = 2;
/** The number of polar stereographic. */
const POLAR = 15;

/** Metres or radians for the units of the register that files of heights use. */
const METRES: Readonly<Record<number, number>> = {
  9001: 1,
  9002: 0.3048,
  9003: 1200 / 3937,
  9036: 1000,
};
const DEGREE = 9102;

/** Metres for one of the unit with this number; null where it is none of those known here. */
export function metresOfUnit(code: unknown): number | null {
  return typeof code === "number" ? (METRES[code] ?? null) : null;
}

/** For each method its name, PROJ's name, and which key gives which of PROJ's parameters; the first key found counts. */
interface Method {
  readonly words: string;
  readonly proj: string;
  readonly keys: Readonly<Record<string, readonly string[]>>;
}

const ORIGIN_LAT = ["ProjNatOriginLatGeoKey", "ProjFalseOriginLatGeoKey", "ProjCenterLatGeoKey"];
const ORIGIN_LON = ["ProjNatOriginLongGeoKey", "ProjFalseOriginLongGeoKey", "ProjCenterLongGeoKey"];
const CENTRE = {
  lat_0: ["ProjCenterLatGeoKey", ...ORIGIN_LAT],
  lon_0: ["ProjCenterLongGeoKey", ...ORIGIN_LON],
};
const NATURAL = { lat_0: ORIGIN_LAT, lon_0: ORIGIN_LON };
const SCALE = { k_0: ["ProjScaleAtNatOriginGeoKey", "ProjScaleAtCenterGeoKey"] };
const PARALLELS = { lat_1: ["ProjStdParallel1GeoKey"], lat_2: ["ProjStdParallel2GeoKey"] };

const METHODS: Readonly<Record<number, Method>> = {
  // On a sphere the exact series has no answer and the plain one is exact.
  1: { words: "transverse Mercator", proj: "tmerc +approx", keys: { ...NATURAL, ...SCALE } },
  7: {
    words: "Mercator",
    proj: "merc",
    keys: { lon_0: ORIGIN_LON, lat_ts: ["ProjStdParallel1GeoKey"], ...SCALE },
  },
  8: { words: "Lambert conformal conic", proj: "lcc", keys: { ...NATURAL, ...PARALLELS } },
  10: { words: "Lambert azimuthal equal area", proj: "laea", keys: CENTRE },
  11: { words: "Albers equal area", proj: "aea", keys: { ...NATURAL, ...PARALLELS } },
  12: { words: "azimuthal equidistant", proj: "aeqd", keys: CENTRE },
  14: { words: "stereographic", proj: "stere", keys: { ...CENTRE, ...SCALE } },
  [POLAR]: {
    words: "polar stereographic",
    proj: "stere",
    keys: { lat_0: ORIGIN_LAT, lon_0: ["ProjStraightVertPoleLongGeoKey", ...ORIGIN_LON], ...SCALE },
  },
  17: {
    words: "equirectangular",
    proj: "eqc",
    keys: { ...CENTRE, lat_ts: ["ProjStdParallel1GeoKey"] },
  },
  21: { words: "orthographic", proj: "ortho", keys: CENTRE },
  24: { words: "sinusoidal", proj: "sinu", keys: { lon_0: ["ProjCenterLongGeoKey", ...ORIGIN_LON] } },
};

/** The projection of `keys`: by its numbers, else by the words that some writers put into a citation. */
export function projectionOf(keys: GeoKeys): Projection {
  const byNumbers = numbersOf(keys);
  if (byNumbers.proj !== null) return byNumbers;
  for (const name of CITATIONS) {
    const written = WORDS.exec(String(keys[name] ?? ""))?.[0].trim();
    const found = written?.startsWith("+")
      ? { proj: written, words: written }
      : written
        ? projectionOfWkt(written)
        : null;
    if (found?.proj) return { proj: found.proj, words: `as its citation says, ${found.words}` };
  }
  return byNumbers;
}

/** Keys of text for people in which a writer may have put WKT or PROJ words. */
const CITATIONS = ["PCSCitationGeoKey", "GTCitationGeoKey", "GeogCitationGeoKey"];
const WORDS = /(PROJCS|PROJCRS|GEOGCS|GEOGCRS)\[.*\]|\+proj=[^|]*/s;

function numbersOf(keys: GeoKeys): Projection {
  const number = (name: string): number | null =>
    typeof keys[name] === "number" && Number.isFinite(keys[name]) ? keys[name] : null;
  const model = number("GTModelTypeGeoKey");
  if (model !== PROJECTED && model !== GEOGRAPHIC) return { proj: null, words: "no reference system" };
  return model === GEOGRAPHIC ? degreesOf(number) : projectedOf(number);
}

/** A key's number; null where it has none. */
type NumberOf = (name: string) => number | null;

function degreesOf(number: NumberOf): Projection {
  const body = bodyOf(number);
  if (!body) return unread(`degrees, ${named(number("GeographicTypeGeoKey"))}`);
  const angular = number("GeogAngularUnitsGeoKey") ?? DEGREE;
  if (angular !== DEGREE) return unread(`angles in unit ${angular}`);
  return degreesOn(body);
}

function projectedOf(number: NumberOf): Projection {
  const body = bodyOf(number);
  const code = number("ProjectedCSTypeGeoKey");
  const transform = number("ProjCoordTransGeoKey");
  if (transform === null) return unread(named(code));
  const method = METHODS[transform];
  if (!method) return unread(`a projection with number ${transform}, which is not read here`);
  if (!body) return unread(`${method.words} on a body whose size it does not give`);
  const unit = number("ProjLinearUnitSizeGeoKey") ?? metresOfUnit(number("ProjLinearUnitsGeoKey") ?? 9001);
  if (unit === null) return unread(`${method.words} in unit ${number("ProjLinearUnitsGeoKey")}`);
  const found = Object.entries(method.keys).flatMap(([name, from]): [string, number][] => {
    const key = from.find((one) => number(one) !== null);
    return key ? [[name, number(key)!]] : [];
  });
  const values = new Map(found);
  if (transform === POLAR && !settlePole(values)) return unread(NO_POLE);
  const east = number("ProjFalseEastingGeoKey") ?? number("ProjFalseOriginEastingGeoKey") ?? 0;
  const north = number("ProjFalseNorthingGeoKey") ?? number("ProjFalseOriginNorthingGeoKey") ?? 0;
  const terms = [...values].map(([name, value]) => `+${name}=${value}`);
  return {
    proj: [
      `+proj=${method.proj}`,
      ...terms,
      // PROJ's false origin is in metres whatever the unit.
      `+x_0=${east * unit} +y_0=${north * unit} ${body.proj} +to_meter=${unit} +no_defs`,
    ].join(" "),
    words: `${method.words}${middleWords(values)}, on ${body.words}`,
  };
}

function middleWords(values: ReadonlyMap<string, number>): string {
  const lat = values.get("lat_0");
  const lon = values.get("lon_0");
  const about = [lat === undefined ? "" : `latitude ${lat}`, lon === undefined ? "" : `longitude ${lon}`];
  const words = about.filter((one) => one !== "").join(", ");
  return words === "" ? "" : ` about ${words}`;
}

function bodyOf(number: NumberOf): BodyWords | null {
  const major = number("GeogSemiMajorAxisGeoKey");
  if (major === null) return null;
  const inverse = number("GeogInvFlatteningGeoKey");
  const minor = number("GeogSemiMinorAxisGeoKey") ?? (inverse ? major * (1 - 1 / inverse) : major);
  return bodyWords(major, minor, number("GeogPrimeMeridianLongGeoKey") ?? 0);
}

function named(code: number | null): string {
  return code === null || code === USER_DEFINED
    ? "coordinates whose projection it does not give"
    : `coordinates named by the number ${code} alone`;
}

function unread(words: string): Projection {
  return { proj: null, words };
}

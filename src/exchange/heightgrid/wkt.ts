import { type BodyWords, bodyWords, degreesOn } from "./body.ts";
import { NO_POLE, settlePole } from "./pole.ts";

/**
 * A coordinate system in WKT 1 (OGC 01-009, chapter 7), by the names of the standard and by those that `.prj` files use, in
 * PROJ's words. Read here and not by the projection library, which drops what it does not know by name: of a parallel at which
 * the scale is true, say, and the map is then another one. What is not understood to the last parameter is not read.
 */

/** A coordinate system in PROJ's words, and in words for people. */
export interface Projection {
  /** Null where it is not given, or not understood. */
  readonly proj: string | null;
  readonly words: string;
}

interface Node {
  readonly name: string;
  readonly parts: readonly (Node | string | number)[];
}

interface Method {
  readonly words: string;
  readonly proj: string;
  /** PROJ's parameter for each of the method's own. */
  readonly takes: ReadonlyMap<string, string>;
}

/** By name. A file may hold any word, so a word that no record was given is never found. */
function named<Value>(record: Readonly<Record<string, Value>>): ReadonlyMap<string, Value> {
  return new Map(Object.entries(record));
}

const CENTRE = named({
  latitude_of_origin: "lat_0",
  latitude_of_center: "lat_0",
  central_meridian: "lon_0",
  longitude_of_center: "lon_0",
});
const SCALED = new Map([...CENTRE, ["scale_factor", "k_0"]]);
const POLAR = named({ central_meridian: "lon_0", scale_factor: "k_0", standard_parallel_1: "lat_ts" });
const TRUE_AT = new Map([...CENTRE, ["standard_parallel_1", "lat_ts"]]);
const CONIC = new Map([...CENTRE, ["standard_parallel_1", "lat_1"], ["standard_parallel_2", "lat_2"]]);

const METHODS: ReadonlyMap<string, Method> = named({
  stereographic_south_pole: { words: "polar stereographic", proj: "stere +lat_0=-90", takes: POLAR },
  stereographic_north_pole: { words: "polar stereographic", proj: "stere +lat_0=90", takes: POLAR },
  polar_stereographic: { words: "polar stereographic", proj: "stere", takes: SCALED },
  stereographic: { words: "stereographic", proj: "stere", takes: SCALED },
  equidistant_cylindrical: { words: "equirectangular", proj: "eqc", takes: TRUE_AT },
  equirectangular: { words: "equirectangular", proj: "eqc", takes: TRUE_AT },
  plate_carree: { words: "equirectangular", proj: "eqc", takes: CENTRE },
  // On a sphere the exact series has no answer and the plain one is exact.
  transverse_mercator: { words: "transverse Mercator", proj: "tmerc +approx", takes: SCALED },
  mercator: { words: "Mercator", proj: "merc", takes: POLAR },
  mercator_1sp: { words: "Mercator", proj: "merc", takes: POLAR },
  mercator_2sp: { words: "Mercator", proj: "merc", takes: POLAR },
  sinusoidal: { words: "sinusoidal", proj: "sinu", takes: CENTRE },
  orthographic: { words: "orthographic", proj: "ortho", takes: CENTRE },
  azimuthal_equidistant: { words: "azimuthal equidistant", proj: "aeqd", takes: CENTRE },
  lambert_conformal_conic: { words: "Lambert conformal conic", proj: "lcc", takes: CONIC },
  lambert_conformal_conic_2sp: { words: "Lambert conformal conic", proj: "lcc", takes: CONIC },
});

/** What every method takes beside its own parameters: lengths in the unit of the system. */
const FALSE_ORIGIN: ReadonlyMap<string, string> = named({ false_easting: "x_0", false_northing: "y_0" });

const DEGREE = Math.PI / 180;

/** The system in the text; without `proj` where it is no WKT 1 or one that is not understood, which `words` then says. */
export function projectionOfWkt(text: string): Projection {
  const root = nodeOf(text);
  if (!root) return unread("what is no WKT 1");
  if (root.name === "GEOGCS") {
    const body = bodyOf(root);
    return typeof body === "string" ? unread(body) : degreesOn(body);
  }
  if (root.name !== "PROJCS") return unread(`a system of the kind ${root.name}`);
  const geographic = part(root, "GEOGCS");
  const body = geographic ? bodyOf(geographic) : "a projection on no body";
  if (typeof body === "string") return unread(body);
  const method = String(part(root, "PROJECTION")?.parts[0] ?? "none");
  const known = METHODS.get(method.toLowerCase());
  if (!known) return unread(`the projection ${method}`);
  const unit = Number(part(root, "UNIT")?.parts[1]);
  if (!(unit > 0)) return unread("a projection whose unit it does not give");
  if (root.parts.some((one) => isNode(one) && one.name === "AXIS" && /west/i.test(String(one.parts[1]))))
    return unread("coordinates that grow to the west");
  return projected(root, known, body, unit);
}

function projected(root: Node, method: Method, body: BodyWords, unit: number): Projection {
  const values = parametersOf(root, method, unit);
  if (typeof values === "string") return unread(values);
  const isPolar = method.words === "polar stereographic" && !method.proj.includes("lat_0");
  if (isPolar && !settlePole(values)) return unread(NO_POLE);
  const terms = [...values].map(([name, value]) => `+${name}=${value}`).join(" ");
  return {
    proj: `+proj=${method.proj} ${terms} ${body.proj} +to_meter=${unit} +no_defs`,
    words: `${method.words}, on ${body.words}`,
  };
}

/** The parameters by their PROJ names, or what of them is not understood. */
function parametersOf(root: Node, method: Method, unit: number): Map<string, number> | string {
  const values = new Map<string, number>();
  for (const one of root.parts) {
    if (!isNode(one) || one.name !== "PARAMETER") continue;
    const [name, value] = [String(one.parts[0]).toLowerCase(), Number(one.parts[1])];
    if (!Number.isFinite(value)) return `the parameter ${name} without a number`;
    const origin = FALSE_ORIGIN.get(name);
    const own = method.takes.get(name);
    if (origin !== undefined) values.set(origin, value * unit);
    else if (own !== undefined) values.set(own, value);
    // A parameter that is 0 says nothing that is not so anyway.
    else if (value !== 0) return `${method.words} with ${name} ${value}`;
  }
  return values;
}

/** The body of a geographic system, or what of it is not understood. */
function bodyOf(geographic: Node): BodyWords | string {
  const datum = part(geographic, "DATUM");
  const [, major, inverse] = (datum && part(datum, "SPHEROID")?.parts) ?? [];
  if (typeof major !== "number" || typeof inverse !== "number") return "a body whose size it does not give";
  const angular = Number(part(geographic, "UNIT")?.parts[1]);
  if (!(Math.abs(angular - DEGREE) < 1e-9)) return "angles that are no degrees";
  const prime = Number(part(geographic, "PRIMEM")?.parts[1] ?? 0);
  const minor = inverse === 0 ? major : major * (1 - 1 / inverse);
  return bodyWords(major, minor, prime);
}

function part({ parts }: Node, name: string): Node | undefined {
  return parts.filter(isNode).find((one) => one.name === name);
}

function isNode(one: Node | string | number | undefined): one is Node {
  return typeof one === "object";
}

function unread(words: string): Projection {
  return { proj: null, words };
}

const TOKEN = /\s*(?:"((?:[^"]|"")*)"|([A-Za-z_][A-Za-z0-9_]*)|([-+]?[\d.][\d.eE+-]*)|([[\](),]))/y;

/** The text as a tree; null where it is none to its end. */
function nodeOf(text: string): Node | null {
  let at = 0;
  const next = (): RegExpExecArray | null => {
    TOKEN.lastIndex = at;
    const found = TOKEN.exec(text);
    if (found) at = TOKEN.lastIndex;
    return found;
  };
  /** A value, or a node where brackets follow the word. */
  const value = (): Node | string | number | null => {
    const found = next();
    if (!found || found[4] !== undefined) return null;
    if (found[1] !== undefined) return found[1];
    if (found[3] !== undefined) return Number(found[3]);
    const name = found[2]!.toUpperCase();
    if (!/^\s*[[(]/.test(text.slice(at))) return name;
    next();
    const parts: (Node | string | number)[] = [];
    for (;;) {
      const one = value();
      if (one === null) return null;
      parts.push(one);
      const sign = next()?.[4];
      if (sign === "]" || sign === ")") return { name, parts };
      if (sign !== ",") return null;
    }
  };
  const root = value();
  return isNode(root ?? undefined) && text.slice(at).trim() === "" ? (root as Node) : null;
}

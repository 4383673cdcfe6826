import { missingForSky, type SkyFields } from "../plan/index.ts";
import { listed } from "./list.ts";

const NAMES = { latDeg: "latitude", lonDeg: "longitude", touchdownUtc: "touchdown" };

/**
 * Why nobody can say where sun and Earth stand, to follow "is unknown": `on this body`, `until latitude and longitude are given`; null
 * where the plan tells it.
 */
export function skyUnknownWords(plan: SkyFields): string | null {
  const missing = missingForSky(plan);
  if (missing === null) return null;
  if (missing === "ephemeris") return "on this body";
  return `until ${listed(missing.map((field) => NAMES[field]))} ${missing.length === 1 ? "is" : "are"} given`;
}

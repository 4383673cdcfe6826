import type { Random } from "../../kernel/index.ts";
import type { PlaceInput } from "./parts.ts";

/** A district: places so close together that a pair of crew members may work at any two of them. */
export interface District {
  readonly name: string;
  readonly places: readonly PlaceInput[];
}

const NAMES = ["Alder", "Birch", "Cedar", "Damson", "Elder", "Fern", "Gorse", "Hazel", "Ivy", "Juniper"];
const PLACES_EACH = 4;

/** Ten districts round the lander, from about 0.2 to 1.3 km out, four places each, on gently rolling ground. */
export function districtsOf(random: Random): District[] {
  return NAMES.map((name, i) => {
    const outM = 180 + i * 115;
    // 137.5 degrees from one to the next spreads them without two in one direction.
    const bearing = (i * 137.5 * Math.PI) / 180;
    const upM = Math.round(random.between(-4, 18));
    const places = Array.from({ length: PLACES_EACH }, (_, k): PlaceInput => ({
      id: `${name.toLowerCase()}-${k + 1}`,
      name: `${name} ${k + 1}`,
      kind: k === 0 ? "deployment" : "station",
      eastM: Math.round(outM * Math.sin(bearing) + random.between(-70, 70)),
      northM: Math.round(outM * Math.cos(bearing) + random.between(-70, 70)),
      upM: upM + Math.round(random.between(-2, 3)),
    }));
    return { name, places };
  });
}

import { z } from "zod";

/**
 * What matters of a thing and nobody but a person can know, by the list that the thing lies in, or by its own name where there is one
 * of it. A new one has to begin with some value there; until a person gives one, the thing names the field in its `toGive`, and
 * everybody can see that the value is nobody's.
 */
export const TO_GIVE = {
  site: ["latDeg", "lonDeg"],
  stay: ["touchdownUtc", "lengthS"],
  crew: ["bodyMassKg"],
  suits: ["massKg", "oxygenKg", "co2Kg", "waterKg", "batteryWh", "emergencyOxygenS"],
  containers: ["emptyMassKg", "capacityKg", "volumeL"],
  places: ["eastM", "northM"],
  tasks: ["duration.likelyS"],
} as const;

/** The field `toGive` of a thing that lies in `list`, or is it. */
export function toGiveField<List extends keyof typeof TO_GIVE>(list: List) {
  return z
    .array(z.enum(TO_GIVE[list]))
    .min(1)
    .max(TO_GIVE[list].length)
    .optional()
    .describe(
      "Fields that hold what a new one begins with and that nobody has given yet; without it all are given.",
    );
}

import type { Plan } from "./plan.ts";
import type { TO_GIVE } from "./togive.ts";

/** What of a plan says where sun and Earth stand. */
export interface SkyFields {
  readonly body: { readonly ephemeris: Plan["body"]["ephemeris"] };
  readonly site: { readonly toGive?: readonly (typeof TO_GIVE.site)[number][] | undefined };
  readonly stay: { readonly toGive?: readonly (typeof TO_GIVE.stay)[number][] | undefined };
}

/** What it takes, beside a body with an ephemeris, to say where sun and Earth stand. */
type SkyField = "latDeg" | "lonDeg" | "touchdownUtc";

/**
 * What is missing to say where sun and Earth stand: an ephemeris for the body, or the fields that nobody has given, in this order. Null
 * where nothing is missing.
 */
export function missingForSky({ body, site, stay }: SkyFields): "ephemeris" | readonly SkyField[] | null {
  if (body.ephemeris === "none") return "ephemeris";
  const fields = [...(site.toGive ?? []), ...(isTouchdownKnown({ stay }) ? [] : ["touchdownUtc" as const])];
  return fields.length === 0 ? null : fields;
}

/** True when somebody has said when the lander touches down: only then MET has a place on the calendar. */
export function isTouchdownKnown({ stay }: Pick<SkyFields, "stay">): boolean {
  return stay.toGive?.includes("touchdownUtc") !== true;
}

import type { CrewMember, Eva } from "./crew.ts";

/** Who wears which suit. A crew member wears the same suit on every EVA; two who share one cannot both be out. */

interface Crewed {
  readonly crew: readonly CrewMember[];
}

/** Ids of the suits worn on `eva`, in the order of its crew; one that two share stands there twice. */
export function suitsWorn({ crew }: Crewed, eva: Pick<Eva, "crew">): string[] {
  return eva.crew.flatMap((id) => crew.find((member) => member.id === id)?.suit ?? []);
}

/** Crew members of `eva` of whom another one wears the same suit, in the order of its crew. */
export function sharingSuits({ crew }: Crewed, eva: Pick<Eva, "crew">): CrewMember[] {
  const out = eva.crew.flatMap((id) => crew.find((member) => member.id === id) ?? []);
  return out.filter((member) => out.some((other) => other !== member && other.suit === member.suit));
}

/** True when a crew member or a suit is out on both EVAs: one has to be in, and the suit recharged, before the other begins. */
export function oneAfterOther(plan: Crewed, a: Pick<Eva, "crew">, b: Pick<Eva, "crew">): boolean {
  const suits = suitsWorn(plan, b);
  return a.crew.some((id) => b.crew.includes(id)) || suitsWorn(plan, a).some((id) => suits.includes(id));
}

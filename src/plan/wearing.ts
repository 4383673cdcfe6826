import type { CrewMember, Eva, Suit } from "./crew.ts";

/**
 * Who wears which suit, and when. Suits are things: a crew member has one of their own, and an EVA may say that they wear another
 * on it. Two who share one cannot both be out, and what one leaves in it the next finds after the recharge.
 */

interface Crewed {
  readonly crew: readonly CrewMember[];
}

interface Clothed extends Crewed {
  readonly suits: readonly Suit[];
}

/** What an EVA says of its crew and their suits. */
export type Outfit = Pick<Eva, "crew" | "suits">;

/** The id of the suit that crew member `id` wears on `eva`: the one the EVA says, else their own; null for somebody who is not in the plan. */
export function suitIdOn({ crew }: Crewed, eva: Pick<Eva, "suits">, id: string): string | null {
  if (Object.hasOwn(eva.suits, id)) return eva.suits[id] ?? null;
  return crew.find((member) => member.id === id)?.suit ?? null;
}

/** The suit that crew member `id` wears on `eva`; null where the plan has none such. */
export function suitOn(plan: Clothed, eva: Pick<Eva, "suits">, id: string): Suit | null {
  const worn = suitIdOn(plan, eva, id);
  return plan.suits.find((suit) => suit.id === worn) ?? null;
}

/** The suits that crew member `id` wears, each once, on whatever EVAs they go out; their own where they go on none. */
export function suitsOf(plan: Clothed & { readonly evas: readonly Outfit[] }, id: string): Suit[] {
  const out = plan.evas.filter((eva) => eva.crew.includes(id));
  const worn =
    out.length > 0 ? out.map((eva) => suitIdOn(plan, eva, id)) : [suitIdOn(plan, { suits: {} }, id)];
  return plan.suits.filter((suit) => worn.includes(suit.id));
}

/** Ids of the suits worn on `eva`, in the order of its crew; one that two share stands there twice. */
export function suitsWorn(plan: Crewed, eva: Outfit): string[] {
  return eva.crew.flatMap((id) => suitIdOn(plan, eva, id) ?? []);
}

/** Crew members of `eva` of whom another one wears the same suit there, in the order of its crew. */
export function sharingSuits(plan: Crewed, eva: Outfit): CrewMember[] {
  const worn = suitsWorn(plan, eva);
  const shared = new Set(worn.filter((suit, k) => worn.indexOf(suit) !== k));
  const out = eva.crew.flatMap((id) => plan.crew.find((member) => member.id === id) ?? []);
  return out.filter((member) => shared.has(suitIdOn(plan, eva, member.id) ?? ""));
}

/** True when a crew member or a suit is out on both EVAs: one has to be in, and the suit recharged, before the other begins. */
export function oneAfterOther(plan: Crewed, a: Outfit, b: Outfit): boolean {
  const suits = suitsWorn(plan, b);
  return a.crew.some((id) => b.crew.includes(id)) || suitsWorn(plan, a).some((id) => suits.includes(id));
}

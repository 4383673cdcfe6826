import { type Plan, stillToGive } from "../plan/index.ts";
import { counted, listed } from "./list.ts";

/** `14 values that nobody has given (New site, Stay, EV1)`: what a plan rests on beside what people gave; null where nothing. */
export function notGivenWords(plan: Plan): string | null {
  const open = stillToGive(plan);
  if (open.length === 0) return null;
  const names = [...new Set(open.map(({ name }) => name))];
  const shown = names.length > NAMED ? [...names.slice(0, NAMED), `${names.length - NAMED} more`] : names;
  return `${counted(open.length, "value")} that nobody has given (${listed(shown)})`;
}

/** What is said of a field of `thing`, and `otherwise` where the value that stands there is nobody's. */
export function unlessToGive(
  thing: { readonly toGive?: readonly string[] | undefined },
  field: string,
  words: string,
  otherwise = "not given",
): string {
  return isToGive(thing, field) ? otherwise : words;
}

/** True for a field whose value nobody has given. */
export function isToGive(thing: { readonly toGive?: readonly string[] | undefined }, field: string): boolean {
  return thing.toGive?.includes(field) ?? false;
}

/** Whether somebody has said where a place lies. */
export function isPlaced(place: { readonly toGive?: readonly string[] | undefined }): boolean {
  return !isToGive(place, "eastM") && !isToGive(place, "northM");
}

/** Whether somebody has said where each of some places of the plan lies; of one that is not named there is nothing to say. */
export function arePlaced({ site }: Plan, places: readonly (string | undefined)[]): boolean {
  return site.places.every((place) => !places.includes(place.id) || isPlaced(place));
}

/** So many things are named; the rest is counted. */
const NAMED = 6;

/** A sum of which something is not known: it is so much at least. */
export function leastWords(words: string, isLeast: boolean): string {
  return isLeast ? `at least ${words}` : words;
}

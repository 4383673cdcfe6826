import type { HeightAnswers } from "../../session/index.ts";

/** What is typed about a file of heights, before it is read. */
export const BLANK = { projection: "", up: "", x: "", y: "", unit: "", reach: "", spacing: "", unknown: "" };
export type Typed = typeof BLANK;

/** What is typed as answers, or in words why it is none. */
export function answersOf(typed: Typed): HeightAnswers | { readonly fault: string } {
  const number = (name: Exclude<keyof Typed, "projection">): number | undefined =>
    typed[name].trim() === "" ? undefined : Number(typed[name].trim().replace(",", "."));
  const names = { up: "The bearing", x: "x", y: "y", unit: "The unit", reach: "The reach" };
  const all = { ...names, spacing: "The distance of points", unknown: "The value for unknown" };
  for (const [name, words] of Object.entries(all))
    if (Number.isNaN(number(name as keyof typeof all))) return { fault: `${words} must be a number.` };
  const [x, y] = [number("x"), number("y")];
  if ((x === undefined) !== (y === undefined)) return { fault: "The lander wants both x and y." };
  return {
    projection: typed.projection.trim() === "" ? undefined : typed.projection,
    upDeg: number("up"),
    lander: x === undefined || y === undefined ? undefined : { x, y },
    metresPerHeight: number("unit"),
    reachM: number("reach"),
    spacingM: number("spacing"),
    unknown: number("unknown"),
  };
}

import { classOf, type Caution, type Plan, type Step, type Task } from "../plan/index.ts";

/**
 * Steps and cautions as lines of text, as they are written in setup and read where there is no room for their form on paper:
 *
 *     WARNING: Line runs away: nobody grabs it.
 *     EV2: IF lamp red THEN key back, wait 60 s [reading, V]
 */

/** The words that a caution begins with, by its class. */
export const CLASS_WORDS = { warning: "WARNING", caution: "CAUTION", note: "NOTE" } as const;

/** What is said of a caution that nobody has classed. */
const UNCLASSED = "CLASS?";

/** What is called the first, second, third or fourth of those who take part where nobody says who they are. */
const PLACES = ["1st", "2nd", "3rd", "4th"] as const;

/** A caution with its class before it; one without class says so. */
export function cautionLine(caution: Caution): string {
  return `${caution.class === undefined ? UNCLASSED : CLASS_WORDS[classOf(caution)]}: ${caution.text}`;
}

/** Cautions as they are read out: the gravest first, as paper has them, those of one class as they were written. */
export function gravestFirst(cautions: readonly Caution[]): readonly Caution[] {
  const classes = Object.keys(CLASS_WORDS);
  return cautions.toSorted((a, b) => classes.indexOf(classOf(a)) - classes.indexOf(classOf(b)));
}

/** A step in one line. `doers` are those who take part, as `doersOf` calls them. */
export function stepLine({ by, when, text, blank }: Step, doers: readonly string[]): string {
  const who = by === undefined ? "" : `${doers[by - 1] ?? PLACES[by - 1] ?? ""}: `;
  const what = when === undefined ? text : `IF ${when} THEN ${text}`;
  const unit = blank === undefined || blank.unit === "" ? "" : `, ${blank.unit}`;
  return `${who}${what}${blank === undefined ? "" : ` [${blank.of}${unit}]`}`;
}

/**
 * What the first, second ... of those who do a task are called: by name where it is settled who they are, since they are named or all
 * are needed; else 1st, 2nd. Without a task those of an EVA.
 */
export function doersOf(
  { crew, evas }: Pick<Plan, "crew" | "evas">,
  task: Pick<Task, "crew"> | null,
): readonly string[] {
  const named = crew.filter(({ id }) => task?.crew.named.includes(id));
  const all = task ? task.crew.count >= crew.length : evas.every((eva) => eva.crew.length === crew.length);
  if (all) return crew.map(({ name }) => name);
  if (task && named.length > 0 && named.length === task.crew.count) return named.map(({ name }) => name);
  return PLACES.slice(0, task?.crew.count ?? PLACES.length);
}

import { remembered } from "../kernel/index.ts";
import { type Plan, taskNumbers } from "../plan/index.ts";

/** Names of the things of a plan. An id that names nothing stands for itself: it is what somebody has to look for. */

/** The name of the one called `id` in a list. */
export function nameIn(list: readonly { readonly id: string; readonly name: string }[], id: string): string {
  return list.find((one) => one.id === id)?.name ?? id;
}

/** A task's name. */
export function taskName({ tasks }: Pick<Plan, "tasks">, id: string): string {
  return nameIn(tasks, id);
}

const numbersOf = remembered(taskNumbers);

/**
 * The one number of a task, on every screen, page and file: the requester's own where one was given, else the one that it was
 * given when it came into the plan. Packing does not change it, nor does what is added or removed.
 */
export function taskNumber({ tasks }: Pick<Plan, "tasks">, id: string): string {
  return numbersOf(tasks).get(id) ?? id;
}

/** A task by number and name, `12 Core tube`: where tasks are listed, so that paper, lanes and files can be matched. */
export function numberedTask(plan: Pick<Plan, "tasks">, id: string): string {
  return plan.tasks.some((task) => task.id === id) ? `${taskNumber(plan, id)} ${taskName(plan, id)}` : id;
}

/**
 * A sentence in which each of the given tasks, where it is named, has its number before its name: the judge and the maker know tasks by name, who
 * reads them looks for the number. Where several of them have one name, each number stands there: `3 or 8 Core tube`;
 * a name that has its number stays as it is.
 */
export function numberedSentence(
  plan: Pick<Plan, "tasks">,
  sentence: string,
  tasks: readonly string[] = plan.tasks.map(({ id }) => id),
): string {
  const meant = new Set(tasks);
  const named = plan.tasks
    .filter(({ id, name }) => name !== "" && meant.has(id) && sentence.includes(name))
    // Of two tasks of one name nobody can tell from it which one is meant: it has both numbers.
    .map(({ name }, _, all) => {
      const numbers = all.filter((one) => one.name === name).map(({ id }) => taskNumber(plan, id));
      return { name, numbers, words: `${numbers.join(" or ")} ${name}` };
    })
    // Of two names of which one holds the other the longer one is meant.
    .toSorted((a, b) => b.name.length - a.name.length);
  if (named.length === 0) return sentence;
  const known = new Map(named.map((one) => [one.name, one]));
  const names = named.map(({ name }) => name.replace(/[\\^$.*+?()[\]{}|/]/g, "\\$&")).join("|");
  return sentence.replace(
    new RegExp(`(?<![\\p{L}\\p{N}])(?:${names})(?![\\p{L}\\p{N}])`, "gu"),
    (name, at: number) => {
      const { numbers, words } = known.get(name)!;
      return numbers.some((number) => isNumbered(sentence.slice(0, at), number)) ? name : words;
    },
  );
}

/** True where what comes next in a sentence that begins with `before` has `number` already. */
function isNumbered(before: string, number: string): boolean {
  return ` ${before}`.endsWith(` ${number} `);
}

/** A finding's sentence with the numbers of the tasks that it is about, those of a group among them. */
export function findingWords(
  plan: Pick<Plan, "tasks" | "groups">,
  finding: {
    readonly sentence: string;
    readonly subjects: readonly { readonly kind: string; readonly id: string }[];
  },
): string {
  const tasks = finding.subjects.flatMap(({ kind, id }) => {
    if (kind === "group") return plan.groups.find((group) => group.id === id)?.tasks ?? [];
    return kind === "task" ? [id] : [];
  });
  return numberedSentence(plan, finding.sentence, tasks);
}

/** A crew member's name. */
export function crewName({ crew }: Pick<Plan, "crew">, id: string): string {
  return nameIn(crew, id);
}

/** Letters of a name beside a figure: a longer one is cut, so that the figure keeps its label. */
const BRIEF = 16;

/** A name where a figure is to be read, or on a map: whole up to `most` letters, else cut with an ellipsis. */
export function briefly(name: string, most = BRIEF): string {
  const letters = [...name];
  return letters.length <= most
    ? name
    : `${letters
        .slice(0, most - 1)
        .join("")
        .trimEnd()}…`;
}

/** An EVA's name; work by command has none. */
export function evaName({ evas }: Pick<Plan, "evas">, id: string | null): string {
  return id === null ? "By command" : nameIn(evas, id);
}

/** A place's name; `no place` where a task has none. */
export function placeName({ site }: Pick<Plan, "site">, id: string | undefined): string {
  return id === undefined ? "no place" : nameIn(site.places, id);
}

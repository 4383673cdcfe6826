import { isEqual, isRecord } from "../kernel/index.ts";
import {
  type Change,
  changesBetween,
  type Clash,
  type Comment,
  guideTo,
  patchBetween,
  type Plan,
  type Renumbered,
  type Signoff,
} from "../plan/index.ts";
import { numberedSentence, numberedTask } from "./names.ts";
import { digits } from "./number.ts";
import { aboutWords } from "./remarks.ts";
import { scheduleChanges, taskChangeWords } from "./taskchange.ts";
import { lasting, met } from "./time.ts";

/** Where a plan differs from another, in words. */
export interface DifferenceLine {
  /** What it is about: "Schedule", "Task First scoop", "Rules". */
  readonly about: string;
  readonly sentence: string;
}

/** What `after` has otherwise than `before`: the plan's own fields by path, the schedule task by task. */
export function differenceWords(before: Plan, after: Plan): readonly DifferenceLine[] {
  return changeWords(before, after, patchBetween(before, after));
}

/** The same of some changes only; whatever is on the schedule is said as a whole. */
function changeWords(before: Plan, after: Plan, changes: readonly Change[]): readonly DifferenceLine[] {
  const others = changes.filter(({ path }) => path[0] !== "schedule");
  const lines = others.flatMap((change) => lineOf(before, after, change));
  const placed = changes.some(({ path }) => path[0] === "schedule");
  // Of a task that is gone the line itself says it.
  const schedule = placed
    ? changesBetween(after, before.schedule, after.schedule).map((one) => ({
        about: "Schedule",
        sentence: numberedSentence(after, taskChangeWords(after, one), [one.task.id]),
      }))
    : [];
  return [...uniform(lines), ...schedule];
}

/** What one of two hands made of the place of a clash, in words: what it is about, and mine and theirs. */
export function clashWords(
  { base, mine, theirs }: { readonly base: Plan; readonly mine: Plan; readonly theirs: Plan },
  clash: Clash,
): { readonly about: string; readonly mine: string; readonly theirs: string } {
  const lineFor = (of: Plan, to: unknown): DifferenceLine | null => {
    if (isEqual(clash.base, to)) return null;
    if (clash.path[0] !== "schedule")
      return lineOf(base, of, { path: clash.path, from: clash.base, to })[0] ?? null;
    const task = clash.path[2]?.slice(1);
    const change = scheduleChanges(of, base.schedule, of.schedule).find((one) => one.task === task);
    return change
      ? { about: "Schedule", sentence: numberedSentence(of, change.sentence, [change.task]) }
      : null;
  };
  const [here, there] = [lineFor(mine, clash.mine), lineFor(theirs, clash.theirs)];
  const about = here?.about ?? there?.about ?? "Plan";
  return { about, mine: here?.sentence ?? "As it was.", theirs: there?.sentence ?? "As it was." };
}

/** Of a task of theirs that a merge gives another number: which, and whose the number is that they gave it. */
export function renumberedWords(plan: Plan, { task, was, is }: Renumbered): string {
  const named = (one: Plan["tasks"][number] | undefined): string => one?.name ?? task;
  const holder = plan.tasks.find((one) => one.number?.toUpperCase() === was.toUpperCase());
  return `${named(plan.tasks.find(({ id }) => id === task))} of theirs, there number ${was}, gets number ${is}: ${was} is ${named(holder)}.`;
}

/** A list in another order is told once. */
function uniform(lines: readonly DifferenceLine[]): readonly DifferenceLine[] {
  const seen = new Set<string>();
  return lines.filter(({ about, sentence }) => {
    const key = `${about} ${sentence}`;
    return !seen.has(key) && seen.add(key);
  });
}

/** What the lists of a plan are called, one of them and all. */
const LISTS: Readonly<Record<string, readonly [one: string, all: string]>> = {
  crew: ["Crew member", "crew"],
  suits: ["Suit", "suits"],
  evas: ["EVA", "EVAs"],
  equipment: ["Equipment", "equipment"],
  containers: ["Container", "containers"],
  tasks: ["Task", "tasks"],
  links: ["Link", "links"],
  groups: ["Group", "groups"],
  variants: ["Variant", "variants"],
  comments: ["Comment", "comments"],
  signoffs: ["Sign-off", "sign-offs"],
  places: ["Place", "places"],
  legs: ["Leg", "legs"],
  keepOuts: ["Keep-out", "keep-outs"],
};

function lineOf(before: Plan, after: Plan, change: Change): readonly DifferenceLine[] {
  const { path, from, to } = change;
  const item = path.findIndex((step) => step.startsWith("#"));
  const list = path[item - 1];
  const [one] = (list !== undefined && LISTS[list]) || ["", ""];
  // Whose hands it was in is no difference, and what was said has no order.
  if (path[0] === "hands" || (isRemark(path[0]) && path[1]?.startsWith(">"))) return [];
  if (item === 1 && isRemark(list)) return [remarkLine(before, after, change)];
  if (item > 0 && one !== "") {
    const thing = path.slice(0, item + 1);
    const about = `${one} ${calledAt(after, thing) ?? calledAt(before, thing) ?? path[item]!.slice(1)}`;
    if (item === path.length - 1) return [{ about, sentence: from === undefined ? "New." : "Gone." }];
    return [{ about, sentence: fieldWords(path, item + 1, [from, to], [after, before]) }];
  }
  const order = path.findIndex((step) => step.startsWith(">"));
  if (order > 0) return orderLines(before, after, path.slice(0, order));
  const [first = "plan", ...rest] = path;
  const about = rest.length === 0 ? "Plan" : capital(bare(first));
  return [{ about, sentence: fieldWords(path, rest.length === 0 ? 0 : 1, [from, to], [after, before]) }];
}

/** That the things of a list stand in another order, where those that both plans have do. */
function orderLines(before: Plan, after: Plan, path: readonly string[]): readonly DifferenceLine[] {
  if (isSameOrder(before, after, path)) return [];
  const list = path.at(-1) ?? "";
  const [, all] = LISTS[list] ?? ["", bare(list)];
  return [{ about: "Order", sentence: `The ${all} stand in another order.` }];
}

/** Whether what a list has in both plans stands in one order: what is new or gone puts nothing in another. */
function isSameOrder(before: Plan, after: Plan, path: readonly string[]): boolean {
  const [was, is] = [before, after].map((plan) => idsAt(plan, path));
  if (!was || !is) return false;
  const [kept, still] = [was.filter((id) => is.includes(id)), is.filter((id) => was.includes(id))];
  return kept.every((id, k) => id === still[k]);
}

/** The ids of a list of a plan; null where it is none of things with ids. */
function idsAt(plan: Plan, path: readonly string[]): readonly string[] | null {
  let value: unknown = plan;
  for (const step of path) value = isRecord(value) ? value[step] : undefined;
  if (value === undefined) return [];
  if (!Array.isArray(value)) return null;
  const ids = value.map((one: unknown) => (isRecord(one) ? one["id"] : undefined));
  return ids.every((id) => typeof id === "string") ? ids : null;
}

function isRemark(list: string | undefined): boolean {
  return list === "comments" || list === "signoffs";
}

/** A comment or a sign-off that came, went or was changed: what it is about, and whose it is. */
function remarkLine(before: Plan, after: Plan, { path, from, to }: Change): DifferenceLine {
  const key = path[1]!.slice(1);
  const find = ({ comments, signoffs }: Plan): Comment | Signoff | undefined =>
    (path[0] === "comments" ? comments : signoffs).find(({ id }) => id === key);
  const one = find(after) ?? find(before);
  const named = one?.about.kind === "task" ? calledAt(after, ["tasks", `#${one.about.id}`]) : null;
  const about = named === null ? (one ? capital(aboutWords(after, one.about)) : "Plan") : `Task ${named}`;
  const what = `${path[0] === "comments" ? "Comment" : "Sign-off"} by ${one?.by ?? "nobody"}`;
  if (path.length > 2)
    return { about, sentence: `${what}, ${fieldWords(path, 2, [from, to], [after, before])}` };
  const text = one && "text" in one ? `: “${one.text}”` : "";
  return { about, sentence: `${what} ${from === undefined ? `is new${text}` : `is gone${text}`}.` };
}

function fieldWords(
  path: readonly string[],
  from: number,
  [was, is]: readonly [unknown, unknown],
  plans: readonly Plan[],
): string {
  const inner = path.slice(from);
  if (inner.some((step) => step.startsWith(">"))) return "The order inside is another one.";
  if (path.at(-1) === "toGive") {
    const left = Array.isArray(is) ? is.map((one) => bare(String(one).split(".").at(-1) ?? "")) : [];
    return left.length === 0 ? "All of it is given." : `Still to be given: ${left.join(", ")}.`;
  }
  const name = capital(inner.map((step) => bare(step.replace(/^#/, ""))).join(", "));
  const [before, after] = [valueWords(path, was, plans), valueWords(path, is, plans)];
  if (before === null || after === null || before === after) return `${name}: changed.`;
  return `${name}: ${before} to ${after}.`;
}

/** A field's name as words: `bodyMassKg` is "body mass". */
function bare(name: string): string {
  const words = name.replace(/([a-z])([A-Z])/g, "$1 $2").split(" ");
  if (words.length > 1 && UNITS[words.at(-1)!] !== undefined) words.pop();
  return words.join(" ").toLowerCase();
}

/** Units by the last word of a field's name. */
const UNITS: Readonly<Record<string, string>> = {
  S: "s",
  M: " m",
  Kg: " kg",
  W: " W",
  Wh: " Wh",
  L: " L",
  Ms: " m/s",
  Deg: "°",
  H: " h",
  N: " N",
  Utc: "",
};

/** Fields that hold ids, by the list of the plan that these are of. */
const HOLDS: Readonly<
  Record<string, (plan: Plan) => readonly { readonly id: string; readonly name: string }[]>
> = {
  crew: (plan) => plan.crew,
  named: (plan) => plan.crew,
  suit: (plan) => plan.suits,
  eva: (plan) => plan.evas,
  equipment: (plan) => plan.equipment,
  container: (plan) => plan.containers,
  place: ({ site }) => site.places,
  endPlace: ({ site }) => site.places,
};

/** The name of the thing whose id `value` is in the field at `path`, in the first of the plans that has it; null where it is no such id. */
function namedIn(path: readonly string[], value: string, plans: readonly Plan[]): string | null {
  const field = path.findLast((step) => !step.startsWith("#")) ?? "";
  if (field === "task" || field === "tasks") {
    const plan = plans.find(({ tasks }) => tasks.some(({ id }) => id === value));
    return plan ? numberedTask(plan, value) : null;
  }
  const listOf = Object.hasOwn(HOLDS, field) ? HOLDS[field]! : () => [];
  for (const plan of plans) {
    const thing = listOf(plan).find(({ id }) => id === value);
    if (thing) return thing.name;
  }
  return null;
}

/** A value in words, what it refers to by its name; null where it has too much in it. */
function valueWords(path: readonly string[], value: unknown, plans: readonly Plan[]): string | null {
  if (value === undefined || value === null) return "none";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "string") return value === "" ? "none" : (namedIn(path, value, plans) ?? `“${value}”`);
  if (typeof value === "number") return numberWords(path, value);
  if (Array.isArray(value) && value.every((one) => typeof one === "string"))
    return listWords(value.map((one) => namedIn(path, one, plans) ?? one));
  if (Array.isArray(value))
    return partWords(value.map((one) => ["", valueWords([...path, "#"], one, plans)]));
  if (!isRecord(value)) return null;
  if (typeof value["name"] === "string") return value["name"];
  return partWords(
    Object.entries(value).map(([key, one]) => [bare(key), valueWords([...path, key], one, plans)]),
  );
}

/** So many signs of a value are said in one line. */
const MOST_SIGNS = 100;

/** Parts in a row, each with what it is called; null where one has too much in it, or all together. */
function partWords(parts: readonly (readonly [name: string, words: string | null])[]): string | null {
  if (parts.length === 0) return "none";
  if (parts.length > 4 || parts.some(([, words]) => words === null)) return null;
  const phrases = parts.map(([name, words]) => `${name} ${words}`.trim());
  const all = phrases.join(phrases.some((one) => one.includes(", ")) ? "; " : ", ");
  return all.length > MOST_SIGNS ? null : all;
}

function listWords(list: readonly string[]): string | null {
  if (list.length === 0) return "none";
  return list.length > 4 ? null : list.join(", ");
}

function numberWords(path: readonly string[], value: number): string {
  const unit = UNITS[/([A-Z][a-z]*)$/.exec(path.at(-1) ?? "")?.[1] ?? ""];
  if (unit !== "s") return `${digits(value)}${unit ?? ""}`;
  return isMoment(path) ? met(value) : lasting(value, "given");
}

/** True where the format counts a field from touchdown. */
function isMoment(path: readonly string[]): boolean {
  const steps = path.map((step) => (step.startsWith("#") ? "*" : step));
  try {
    return /touchdown|MET/.test(guideTo(steps.join(".")).words);
  } catch {
    return false;
  }
}

/** What the thing at `path` is called: by its name, a task by its number too. */
function calledAt(plan: Plan, path: readonly string[]): string | null {
  const [list, item, ...inner] = path;
  const isTask = list === "tasks" && item !== undefined && inner.length === 0;
  const name = nameAt(plan, path);
  return name !== null && isTask ? numberedTask(plan, item.slice(1)) : name;
}

function nameAt(plan: Plan, path: readonly string[]): string | null {
  let at: unknown = plan;
  for (const step of path) {
    if (step.startsWith("#"))
      at = Array.isArray(at) ? at.find((one) => isRecord(one) && one["id"] === step.slice(1)) : undefined;
    else at = isRecord(at) ? at[step] : undefined;
  }
  return isRecord(at) && typeof at["name"] === "string" ? at["name"] : null;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

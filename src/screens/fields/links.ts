import { duration } from "../../kernel/index.ts";
import type { LagLink, Link, Plan } from "../../plan/index.ts";
import { choice, quantity, text } from "./entry.ts";
import { linkWords, numberedTask } from "../../words/index.ts";
import { one, SOURCES } from "./nameentry.ts";
import { listTable } from "./listtable.ts";
import type { Field } from "./table.ts";
import { span } from "./timeentry.ts";

/** Conditions between two tasks. */

const ENDS = choice([
  { value: "start", words: "start" },
  { value: "end", words: "end" },
]);

// A lag is a length of time that may be negative; unlike a moment it is not counted from touchdown.
const lag = { ...span, form: "h:mm, or minutes; with a minus it lies before." };

const pairOf = (link: Link): readonly [string, string] =>
  link.type === "lag" ? [link.from.task, link.to.task] : link.tasks;

const withPair = (link: Link, pair: readonly [string, string]): Link =>
  link.type === "lag"
    ? { ...link, from: { ...link.from, task: pair[0] }, to: { ...link.to, task: pair[1] } }
    : { ...link, tasks: [pair[0], pair[1]] };

/** The same two tasks under another sort of condition, with its gentlest numbers. */
function asType(link: Link, type: Link["type"]): Link {
  if (link.type === type) return link;
  const { id } = link;
  const [first, second] = pairOf(link);
  const made: { readonly [T in Link["type"]]: () => Link } = {
    lag: () => before(id, first, second),
    crew: () => ({ id, type: "crew", tasks: [first, second], crew: "same" }),
    eva: () => ({ id, type: "eva", tasks: [first, second] }),
    apart: () => ({ id, type: "apart", tasks: [first, second], leastM: 0 }),
  };
  return made[type]();
}

function before(id: string, first: string, second: string): LagLink {
  return {
    id,
    type: "lag",
    from: { task: first, end: "end" },
    to: { task: second, end: "start" },
    leastS: duration(0),
    needs: "from",
  };
}

const only =
  (type: Link["type"], words: string) =>
  (link: Link): string | null =>
    link.type === type ? null : `Only for the condition “${words}”.`;

const lagOnly = only("lag", "time");

/** A link as one sentence in which each task has its number before its name, so that two of one name are told apart. */
export function numberedLink(plan: Plan, link: Link): string {
  const ids = pairOf(link);
  const tasks = plan.tasks
    .filter(({ id }) => ids.includes(id))
    .map((task) => ({ ...task, name: numberedTask(plan, task.id) }));
  return linkWords({ ...plan, tasks }, link);
}

const fields: readonly Field<Link>[] = [
  {
    label: "In words",
    path: "words",
    entry: text,
    width: 44,
    read: (row, plan) => numberedLink(plan, row),
    apart: () => "Follows from the other columns.",
  },
  {
    label: "Condition",
    path: "type",
    entry: choice([
      { value: "lag", words: "time" },
      { value: "crew", words: "crew" },
      { value: "eva", words: "same EVA" },
      { value: "apart", words: "apart" },
    ]),
    width: 9,
    hint: "time: bounds between two ends. crew: the same or none in common. same EVA. apart: end places at least so far apart.",
    write: (row, value) => asType(row, value as Link["type"]),
  },
  {
    label: "First task",
    path: "from.task",
    entry: one(SOURCES.tasks),
    width: 24,
    group: "First",
    hint: "The task that is counted from.",
    read: (row) => pairOf(row)[0],
    write: (row, value) => withPair(row, [value as string, pairOf(row)[1]]),
  },
  {
    label: "Counted from its",
    path: "from.end",
    entry: ENDS,
    width: 12,
    group: "First",
    hint: "Counted from its start or its end.",
    apart: lagOnly,
  },
  {
    label: "Second task",
    path: "to.task",
    entry: one(SOURCES.tasks),
    width: 24,
    group: "Second",
    hint: "The task that is bound.",
    read: (row) => pairOf(row)[1],
    write: (row, value) => withPair(row, [pairOf(row)[0], value as string]),
  },
  {
    label: "Bound is its",
    path: "to.end",
    entry: ENDS,
    width: 10,
    group: "Second",
    hint: "Its start or its end is bound.",
    apart: lagOnly,
  },
  {
    label: "At least",
    path: "leastS",
    entry: lag,
    unit: "h:mm",
    width: 8,
    hint: "At least so long after what is counted from; negative: at most so long before it.",
    group: "Time between",
    apart: lagOnly,
  },
  {
    label: "At most",
    path: "greatestS",
    entry: lag,
    unit: "h:mm",
    width: 8,
    hint: "At most so long after what is counted from; negative: at least so long before it.",
    group: "Time between",
    apart: lagOnly,
  },
  {
    label: "Needs",
    path: "needs",
    entry: choice([
      { value: "none", words: "nothing" },
      { value: "from", words: "the first" },
      { value: "both", words: "each other" },
    ]),
    width: 10,
    group: "Time between",
    apart: lagOnly,
  },
  {
    label: "Crew",
    path: "crew",
    entry: choice([
      { value: "same", words: "the same" },
      { value: "different", words: "none in common" },
    ]),
    width: 14,
    hint: "By the same crew members, or with none in common.",
    apart: only("crew", "crew"),
  },
  {
    label: "Apart",
    path: "leastM",
    entry: quantity("m"),
    unit: "m",
    width: 7,
    apart: only("apart", "apart"),
  },
];

export const linkTable = listTable<Link>({
  id: "links",
  title: "Links",
  intro: "Conditions between two tasks: order and time between, same or different crew, same EVA, distance.",
  one: "link",
  list: "links",
  kind: "link",
  prefix: "link",
  keyOf: (row) => row.id,
  nameOf: (row, plan) => linkWords(plan, row),
  fields,
  blank: (plan, id) => {
    const [first, second] = plan.tasks;
    return first && second ? before(id, first.id, second.id) : "Add two tasks first: a link joins two.";
  },
});

/**
 * What the columns of a list may mean, as data: for each kind of list its targets with the words that stand over such
 * columns, what sort of value they hold, and the unit of bare numbers.
 */

export type ListKind = "tasks" | "places" | "links";

/** text: as it stands. word: one of the plan's own things or words. tick: yes or no. refs: names of other rows. */
export type Sort = "text" | "word" | "tick" | "refs" | "time" | "mass" | "length" | "volume" | "number";

export interface Target {
  readonly id: string;
  readonly label: string;
  readonly sort: Sort;
  /** Words over such a column, in small letters; the first ones are the likelier. */
  readonly heads: readonly string[];
}

const target = (id: string, label: string, sort: Sort, ...heads: readonly string[]): Target => ({
  id,
  label,
  sort,
  heads: [label.toLowerCase(), ...heads],
});

const TASKS: readonly Target[] = [
  target(
    "number",
    "Number",
    "text",
    "no",
    "nr",
    "#",
    "id",
    "ref",
    "request no",
    "request number",
    "item",
    "request",
  ),
  target("name", "Task", "text", "name", "title", "request name", "activity", "job", "work", "request"),
  target("kind", "Kind", "word", "what", "type", "sort", "category"),
  target("place", "Place", "word", "where", "location", "station", "site", "at"),
  target("endPlace", "Ends at", "word", "end place", "to", "where to"),
  target("crew", "Crew", "word", "who", "by", "ev", "crew members", "crew count", "people"),
  target(
    "likely",
    "Likely",
    "time",
    "time likely",
    "duration",
    "time",
    "duration likely",
    "how long",
    "nominal",
    "minutes",
    "mins",
    "hours",
  ),
  target("low", "At least", "time", "time at least", "low", "min", "minimum", "shortest", "least"),
  target("high", "At most", "time", "time at most", "high", "max", "maximum", "longest", "most"),
  target("must", "Must do", "tick", "must", "mandatory", "required"),
  target("worth", "Worth", "number", "points", "priority points", "value", "score"),
  target("relay", "Relay", "tick", "needs relay", "in relay pass"),
  target("massOut", "Carried out", "mass", "carry out", "mass carry out", "mass out", "out", "takes out"),
  target(
    "massBack",
    "Brought back",
    "mass",
    "bring back",
    "mass bring back",
    "mass back",
    "back",
    "sample mass",
    "returns",
  ),
  target("volumeBack", "Volume brought back", "volume", "volume", "sample volume"),
  target("container", "Container", "word", "bag box", "box", "bag", "into", "case"),
  target("walk", "Walk in it", "length", "walk", "walked"),
  target("after", "After", "refs", "follows", "depends on", "needs", "behind"),
  target("notes", "Notes", "text", "remarks", "remark", "note", "comment", "comments"),
];

const PLACES: readonly Target[] = [
  target("name", "Place", "text", "name", "station", "site"),
  target("east", "East", "length", "x", "e", "east of the lander"),
  target("north", "North", "length", "y", "n", "north of the lander"),
  target("up", "Height", "length", "up", "z", "elevation"),
  target("kind", "Kind", "word", "type", "sort", "what"),
];

const LINKS: readonly Target[] = [
  target("first", "First task", "refs", "first", "from", "before", "task"),
  target("second", "Second task", "refs", "second", "to", "then"),
  target("least", "At least", "time", "least", "min", "lag", "minimum"),
  target("greatest", "At most", "time", "most", "max", "maximum", "greatest"),
];

export const TARGETS: Readonly<Record<ListKind, readonly Target[]>> = {
  tasks: TASKS,
  places: PLACES,
  links: LINKS,
};

/** The target called `id` in lists of a kind. */
export function targetOf(kind: ListKind, id: string | null): Target | null {
  return TARGETS[kind].find((one) => one.id === id) ?? null;
}

/** Units that a measured column may be in, by the unit that stands for bare numbers first, each in units of the plan. */
export const UNITS: Readonly<Partial<Record<Sort, Readonly<Record<string, number>>>>> = {
  time: { min: 60, h: 3600, s: 1 },
  mass: { kg: 1, g: 0.001 },
  length: { m: 1, km: 1000 },
  volume: { L: 1, ml: 0.001 },
};

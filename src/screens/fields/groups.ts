import { done, failed } from "../../kernel/index.ts";
import type { Group } from "../../plan/index.ts";
import { type Entry, partsOf, quantity } from "./entry.ts";
import { some, SOURCES } from "./nameentry.ts";
import { BY_NAME, listTable, named } from "./listtable.ts";

/** Tasks of which so many are wanted. */

/** What the first, second, ... counts, whole %. */
const shares: Entry = {
  editor: "line",
  align: "start",
  show: (value) => {
    const list = sharesIn(value);
    return list.length === 0 ? "each whole" : list.map((share) => `${share} %`).join(", ");
  },
  draft: (value) => sharesIn(value).join(", "),
  read(draft) {
    const list = partsOf(draft.replaceAll("%", ""), /[,;\s]+/).map(Number);
    return list.every((share) => Number.isInteger(share) && share >= 0 && share <= 100)
      ? done(list)
      : failed("Write whole numbers from 0 to 100 with commas between: 100, 50, 25.");
  },
  form: "% with commas between: 100, 50, 25. Empty: each counts whole.",
};

function sharesIn(value: unknown): readonly number[] {
  return Array.isArray(value) ? value.filter((one) => typeof one === "number") : [];
}

export const groupTable = listTable<Group>({
  id: "groups",
  title: "Groups",
  intro:
    "Tasks of which so many are wanted: at most two trenches, at least one of three stations; or of which each further one is worth less.",
  one: "group",
  list: "groups",
  kind: "group",
  prefix: "group",
  ...BY_NAME,
  fields: [
    named(24),
    { label: "Tasks", path: "tasks", entry: some(SOURCES.tasks, "none yet"), width: 44 },
    { label: "At least", path: "least", entry: quantity(""), width: 9 },
    { label: "At most", path: "most", entry: quantity(""), width: 9 },
    {
      label: "Each counts",
      path: "shares",
      entry: shares,
      width: 22,
      hint: "What the first, second, third of those done counts of its worth, the most worth first; all beyond count the last.",
    },
  ],
  lacks: [
    {
      words: "asks for nothing yet",
      is: ({ least, most, shares: list }) => least === 0 && most === undefined && list.length === 0,
    },
  ],
  blank: (plan, id) =>
    plan.tasks.length === 0
      ? "Add tasks first: a group is made of them."
      : { id, name: `New group ${plan.groups.length + 1}`, tasks: [], least: 0, shares: [] },
  copy: (row, id) => ({ ...row, id, name: `${row.name} (copy)`, shares: [] }),
});

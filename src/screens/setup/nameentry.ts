import { done, failed } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type Choice, type Entry, listOf, partsOf } from "./entry.ts";

/** Entries that name other things of the plan. People see names, the document holds ids. */

/** Where named things lie. */
export type NameSource = (plan: Plan) => readonly { readonly id: string; readonly name: string }[];

export const SOURCES = {
  places: (plan) => plan.site.places,
  crew: (plan) => plan.crew,
  suits: (plan) => plan.suits,
  evas: (plan) => plan.evas,
  tasks: (plan) => plan.tasks,
  equipment: (plan) => plan.equipment,
  containers: (plan) => plan.containers,
} satisfies Record<string, NameSource>;

const choicesOf = (source: NameSource, plan: Plan): Choice[] =>
  source(plan).map(({ id, name }) => ({ value: id, words: name }));

const nameIn = (source: NameSource, plan: Plan, id: string): string =>
  source(plan).find((one) => one.id === id)?.name ?? id;

/** One of the plan's things; with `none` also nothing, which is shown in these words. */
export function one(source: NameSource, none?: string): Entry {
  return {
    editor: "one",
    align: "start",
    show: (value, plan) => (typeof value === "string" ? nameIn(source, plan, value) : (none ?? "")),
    draft: (value) => (typeof value === "string" ? value : ""),
    read: (draft) => {
      if (draft !== "") return done(draft);
      return none === undefined ? failed("Choose one of the list.") : done(undefined);
    },
    choices: (plan) => [
      ...(none === undefined ? [] : [{ value: "", words: none }]),
      ...choicesOf(source, plan),
    ],
  };
}

/** Some of the plan's things; none is shown in the words of `none`. */
export function some(source: NameSource, none: string): Entry {
  return {
    editor: "some",
    align: "start",
    show: (value, plan) => {
      const names = listOf(value).map((id) => nameIn(source, plan, id));
      return names.length === 0 ? none : names.join(", ");
    },
    draft: (value) => listOf(value).join(" "),
    read: (draft) => done(partsOf(draft, /\s+/)),
    choices: (plan) => choicesOf(source, plan),
  };
}

interface Use {
  readonly equipment: string;
  readonly count: number;
}

/** Shared equipment in use with how many of each, by name: `Core drill, Rake ×2`. */
export const uses: Entry = {
  editor: "line",
  align: "start",
  show: usesInWords,
  draft: usesInWords,
  read(draft, plan) {
    const read: Use[] = [];
    for (const part of partsOf(draft, /[,;\n]/)) {
      const [, name = "", count] = /^(.*?)\s*(?:[×x*]\s*(\d+))?$/.exec(part) ?? [];
      const wanted = name.toLowerCase();
      const found = plan.equipment.find((item) => item.name.toLowerCase() === wanted || item.id === wanted);
      if (!found) {
        const known = plan.equipment.map((item) => item.name).join(", ");
        return failed(`There is no equipment “${name}”.${known === "" ? "" : ` There is: ${known}.`}`);
      }
      if (read.some((use) => use.equipment === found.id)) return failed(`${found.name} stands there twice.`);
      const many = Number(count ?? 1);
      if (many < 1) return failed(`How many of ${found.name}? At least 1.`);
      read.push({ equipment: found.id, count: many });
    }
    return done(read);
  },
  form: "Names with commas, ×2 for two of a kind.",
};

function usesInWords(value: unknown, plan: Plan): string {
  const list = Array.isArray(value) ? (value as readonly Use[]) : [];
  return list
    .map(({ equipment, count }) => {
      const name = nameIn(SOURCES.equipment, plan, equipment);
      return count === 1 ? name : `${name} ×${count}`;
    })
    .join(", ");
}

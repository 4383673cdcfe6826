import { done, failed } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import { nameIn } from "../../words/index.ts";
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

/** One of the plan's things; with `none` also nothing, which is shown in these words. */
export function one(source: NameSource, none?: string): Entry {
  return {
    editor: "one",
    align: "start",
    show: (value, plan) => (typeof value === "string" ? nameIn(source(plan), value) : (none ?? "")),
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
      const names = listOf(value).map((id) => nameIn(source(plan), id));
      return names.length === 0 ? none : names.join(", ");
    },
    draft: (value) => listOf(value).join(" "),
    read: (draft) => done(partsOf(draft, /\s+/)),
    choices: (plan) => choicesOf(source, plan),
  };
}

/** Suits by crew member, `EV1 in Suit C, EV2 in Suit A`; who is not named wears their own. */
export const outfit: Entry = {
  editor: "line",
  align: "start",
  show: (value, plan) => outfitInWords(value, plan) || "their own",
  draft: outfitInWords,
  read(draft, plan) {
    const read: Record<string, string> = {};
    for (const part of partsOf(draft, /[,;\n]/)) {
      const [, who = "", what = ""] = /^(.+?)\s+in\s+(.+)$/i.exec(part) ?? [];
      if (who === "") return failed(`“${part}” names no suit: write EV1 in Suit 2.`);
      const member = called(SOURCES.crew, plan, who);
      if (!member) return failed(`There is no crew member “${who}”.${knownNames(plan.crew)}`);
      const suit = called(SOURCES.suits, plan, what);
      if (!suit) return failed(`There is no suit “${what}”.${knownNames(plan.suits)}`);
      if (Object.hasOwn(read, member.id)) return failed(`${member.name} stands there twice.`);
      read[member.id] = suit.id;
    }
    return done(read);
  },
  form: "EV1 in Suit 2, with commas between.",
};

/** The suits of those who are in `crew`. */
export function onlyOf(
  suits: Readonly<Record<string, string>>,
  crew: readonly string[],
): Record<string, string> {
  return Object.fromEntries(Object.entries(suits).filter(([member]) => crew.includes(member)));
}

function outfitInWords(value: unknown, plan: Plan): string {
  const worn = typeof value === "object" && value !== null ? Object.entries(value) : [];
  return worn
    .map(([who, what]) => `${nameIn(plan.crew, who)} in ${nameIn(plan.suits, String(what))}`)
    .join(", ");
}

const called = (
  source: NameSource,
  plan: Plan,
  written: string,
): ReturnType<NameSource>[number] | undefined =>
  source(plan).find((one) => one.name.toLowerCase() === written.toLowerCase() || one.id === written);

function knownNames(list: readonly { readonly name: string }[]): string {
  return list.length === 0 ? "" : ` There is: ${list.map((one) => one.name).join(", ")}.`;
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
      const found = called(SOURCES.equipment, plan, name);
      if (!found) return failed(`There is no equipment “${name}”.${knownNames(plan.equipment)}`);
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
      const name = nameIn(plan.equipment, equipment);
      return count === 1 ? name : `${name} ×${count}`;
    })
    .join(", ");
}

import type { Plan } from "../../plan/index.ts";
import { sameName } from "./names.ts";
import { plain } from "./heads.ts";

/**
 * Words of a list that are none of the plan's: each is asked about once, however often it stands there, with what it most
 * likely means where that can be told.
 */

interface Choice {
  readonly value: string;
  readonly words: string;
}

/** What a word stands for: a choice's value. Crew members are `ev:`, their ids and how many more, something to be added is NEW. */
export type Answers = ReadonlyMap<string, string>;

export interface Question {
  /** By which the answer is kept. */
  readonly key: string;
  /** The column's label and the word; "" for blank cells. */
  readonly column: string;
  readonly word: string;
  /** In how many cells it stands. */
  readonly cells: number;
  readonly choices: readonly Choice[];
  /** What is taken unless something else is chosen; null where nothing can be told. */
  readonly guess: string | null;
}

/** Stands for something that is added to the plan under the word as its name. */
export const NEW = "new";
/** Stands for leaving the cell out. */
const LEAVE = "leave";

/** One sort of words: what can be chosen, what a word means without a question, and what it may mean. */
export interface Vocabulary {
  readonly column: string;
  readonly choices: readonly Choice[];
  /** The value of a word that needs no question; null for others. */
  known(word: string): string | null;
  guess(word: string): string | null;
}

function keyOf(column: string, word: string): string {
  return `${column}|${plain(word)}`;
}

/** The value of a word: known, answered or guessed; null where it is to be left out or cannot be told. */
export function meaningOf(vocabulary: Vocabulary, word: string, answers: Answers): string | null {
  const known = vocabulary.known(word);
  if (known !== null) return known;
  const answered = answers.get(keyOf(vocabulary.column, word));
  const offered = vocabulary.choices.some(({ value }) => value === answered);
  const meant = answered !== undefined && offered ? answered : vocabulary.guess(word);
  return meant === LEAVE ? null : meant;
}

/** The questions that the words in `cells` raise, in their order. */
export function questionsOf(vocabulary: Vocabulary, cells: readonly string[]): readonly Question[] {
  const questions = new Map<string, Question>();
  for (const word of cells) {
    if (vocabulary.known(word) !== null) continue;
    const key = keyOf(vocabulary.column, word);
    const { column, choices } = vocabulary;
    const before = questions.get(key);
    questions.set(
      key,
      before
        ? { ...before, cells: before.cells + 1 }
        : { key, column, word, cells: 1, choices, guess: vocabulary.guess(word) },
    );
  }
  return [...questions.values()];
}

const leave = (words: string): Choice => ({ value: LEAVE, words });

const KINDS: readonly Choice[] = [
  { value: "sampling", words: "sampling" },
  { value: "deployment", words: "deployment" },
  { value: "survey", words: "survey" },
  { value: "upkeep", words: "upkeep" },
];
/** Beginnings of words for each kind of work. */
const KIND_WORDS: readonly (readonly [RegExp, string])[] = [
  [/^(sampl|core|rock|soil|scoop|collect|geolog)/, "sampling"],
  [/^(deploy|instrument|set ?up|set out|emplace|install|experiment)/, "deployment"],
  [/^(survey|photo|pano|measure|observ|walk|map|probe)/, "survey"],
  [/^(upkeep|ops|operation|maint|repair|house|service|logistic|other)/, "upkeep"],
];

export const KIND_VOCABULARY: Vocabulary = {
  column: "Kind",
  choices: [...KINDS, leave("leave blank: survey")],
  known: (word) => KINDS.find(({ value }) => value === plain(word))?.value ?? null,
  guess: (word) => KIND_WORDS.find(([form]) => form.test(plain(word)))?.[1] ?? null,
};

const PLACE_KINDS: readonly Choice[] = [
  { value: "lander", words: "lander" },
  { value: "station", words: "station" },
  { value: "deployment", words: "deployment site" },
];

export const PLACE_KIND_VOCABULARY: Vocabulary = {
  column: "Kind of place",
  choices: [...PLACE_KINDS, leave("leave blank: station")],
  known: (word) =>
    PLACE_KINDS.find(({ value, words }) => value === plain(word) || words === plain(word))?.value ?? null,
  guess: (word) => (/deploy|instrument|set ?out/.test(plain(word)) ? "deployment" : "station"),
};

/** The plan's places by name or id; a place that is not there cannot be made up, since nobody knows where it is. */
export function placeVocabulary(plan: Plan): Vocabulary {
  const { places } = plan.site;
  return {
    column: "Place",
    choices: [...places.map(({ id, name }) => ({ value: id, words: name })), leave("nowhere: leave it out")],
    known: (word) => named(places, word),
    guess: () => null,
  };
}

/** The plan's containers; another one can be added under the word as its name. */
export function containerVocabulary(plan: Plan): Vocabulary {
  const { containers } = plan;
  return {
    column: "Container",
    choices: [
      ...containers.map(({ id, name }) => ({ value: id, words: name })),
      { value: NEW, words: "a new container" },
      leave("leave it out"),
    ],
    known: (word) => named(containers, word),
    guess: () => NEW,
  };
}

const NUMBERS: Readonly<Record<string, number>> = {
  one: 1,
  any: 1,
  anyone: 1,
  either: 1,
  single: 1,
  two: 2,
  both: 2,
  pair: 2,
  three: 3,
  four: 4,
  none: 0,
  remote: 0,
  ground: 0,
};

/** "EV1 and 1 more": so many besides those by name. */
const MORE = /\s+and (\d) more$/i;

/** Who does it: a count, or crew members by name joined by commas, "and", "+" or "&". */
export function crewVocabulary(plan: Plan): Vocabulary {
  const members = plan.crew;
  return {
    column: "Crew",
    choices: [
      ...members.map(({ id, name }) => ({ value: `ev:${id}+`, words: `${name}, by name` })),
      ...[1, 2, 3, 4]
        .filter((count) => count <= members.length)
        .map((count) => ({ value: String(count), words: `any ${count}` })),
      { value: "0", words: "nobody: work by command" },
      leave("leave blank: any 1"),
    ],
    known(word) {
      if (/^[0-4]$/.test(word.trim())) return word.trim();
      const [, more = ""] = MORE.exec(word) ?? [];
      const ids = word
        .replace(MORE, "")
        .split(/\s*(?:[,;+&/]|\band\b)\s*/i)
        .map((one) => named(members, one));
      const all = ids.filter((id): id is string => id !== null);
      return all.length === ids.length && all.length > 0 ? `ev:${[...new Set(all)].join(",")}+${more}` : null;
    },
    guess(word) {
      const meant = plain(word);
      const count = meant === "all" || meant === "everybody" ? members.length : NUMBERS[meant];
      return count === undefined || count > members.length ? null : String(count);
    },
  };
}

/** The id of the thing called `word`; null for none, or more than one. */
function named(list: readonly { readonly id: string; readonly name: string }[], word: string): string | null {
  const wanted = sameName(word);
  const found = list.filter(({ name }) => sameName(name) === wanted);
  if (found.length === 1) return found[0]?.id ?? null;
  return found.length === 0 ? (list.find(({ id }) => id === wanted)?.id ?? null) : null;
}

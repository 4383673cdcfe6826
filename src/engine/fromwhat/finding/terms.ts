import type { Finding, FromTable, Verdict } from "../../../answers/index.ts";
import type { Explained } from "../../../kernel/index.ts";
import type { Plan, Schedule } from "../../../plan/index.ts";
import type { Unit } from "../../../rules/index.ts";
import { bare, clockToSecond } from "../../../words/index.ts";

/** A finding of a day, asked from what it comes. */
export interface FindingOfDay {
  readonly plan: Plan;
  readonly schedule: Schedule;
  readonly verdict: Verdict;
  readonly finding: Finding;
}

/** From what the number comes that a rule asks for, and the one that there is; and what else there is to see. */
export interface Behind {
  readonly need?: Explained;
  readonly have?: Explained;
  readonly more?: readonly Explained[];
  readonly sums?: FromTable;
}

/** One number that goes into a sum, with the words for it. */
export type Term = readonly [words: string, value: number];

/** The sum of `terms`; nothing of it is 0. */
export function sumOf(of: string, unit: Unit, terms: readonly Term[], source: string): Explained {
  const inputs = terms.map(([words, value], k) => ({ name: `n${k + 1}`, value, unit: `${unit}: ${words}` }));
  return {
    of,
    value: terms.reduce((sum, [, value]) => sum + value, 0),
    unit,
    formula: inputs.length === 0 ? "0" : inputs.map(({ name }) => name).join(" + "),
    inputs,
    source,
  };
}

/** What `formula` makes of `inputs`, with its value worked out by the caller. */
export function madeOf(
  of: string,
  value: number,
  unit: string,
  formula: string,
  inputs: Readonly<Record<string, Term>>,
  source: string,
): Explained {
  return {
    of,
    value,
    unit,
    formula,
    inputs: Object.entries(inputs).map(([name, [words, each]]) => ({ name, value: each, unit: words })),
    source,
  };
}

/** A number that the planner gave: it comes from nothing else. */
export function given(of: string, value: number, unit: Unit, where: string): Explained {
  return {
    of,
    value,
    unit,
    formula: "given",
    inputs: [{ name: "given", value, unit: where }],
    source: where,
  };
}

/** `later` less `earlier`, two moments in MET s. */
export function timeBetween(of: string, earlier: Term, later: Term, source: string): Explained {
  return madeOf(
    of,
    later[1] - earlier[1],
    "s",
    "later - earlier",
    { later: moment(later), earlier: moment(earlier) },
    source,
  );
}

/** A moment as an input: its words, and how it reads. */
export function moment([words, atS]: Term): Term {
  return [`s MET, ${clockToSecond(atS)}: ${words}`, atS];
}

/** Lines of words and numbers. */
export function table(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly (string | number)[])[],
): FromTable {
  return {
    caption,
    head,
    rows: rows.map((row) => row.map((cell) => (typeof cell === "number" ? bare(cell, 6) : cell))),
  };
}

/** The id of the finding's first subject of a kind. */
export function subject({ subjects }: Finding, kind: Finding["subjects"][number]["kind"], nth = 0): string {
  return subjects.filter((one) => one.kind === kind)[nth]?.id ?? "";
}

import {
  at,
  type FieldGuide,
  given,
  guideTo,
  type Plan,
  TO_GIVE,
  type Usual,
  usualOf,
  withAt,
} from "../../plan/index.ts";
import type { Verdict } from "../../answers/index.ts";
import { removalOf, type Removable, type Removal } from "../../session/index.ts";
import { counted } from "../../words/index.ts";
import { type Entry, text } from "./entry.ts";

/**
 * Setup tables as data. A list table shows one list of the plan, a row a thing; a sheet shows single fields of the
 * plan, a row a field. Both come to lines of cells, which is all that the grid knows.
 */

/** A field of a thing (or of the whole plan, in a sheet). `Row` is the thing. */
export interface Field<Row> {
  readonly label: string;
  /** Where it lies within the thing: "duration.likelyS". */
  readonly path: string;
  readonly entry: Entry;
  /** Only where the thing itself says how it is written: the entry for this row. */
  readonly entryFor?: (row: Row, plan: Plan) => Entry;
  /** Unit for the column's head; the entry's form says how to write it. */
  readonly unit?: string;
  /** Width of the column, in digits. */
  readonly width: number;
  /** Columns with the same group stand under one head. */
  readonly group?: string;
  /** Words for what the schema leaves unsaid. */
  readonly hint?: string;
  /** Other words that stand over such a column in spreadsheets. */
  readonly heads?: readonly string[];
  /** Only for fields that are not simply what lies at their path. */
  readonly read?: (row: Row, plan: Plan) => unknown;
  readonly write?: (row: Row, value: unknown, plan: Plan) => Row;
  /** Why the field does not apply to this thing; null when it does. */
  readonly apart?: (row: Row, plan: Plan) => string | null;
  /** The object around it goes when its last field is emptied. */
  readonly prune?: boolean;
  /** What cannot be known until somebody gives it, where the plan goes on without: "sun and Earth unknown". */
  readonly unknown?: string;
}

export interface Cell {
  readonly id: string;
  /** Its full name: "Body mass of EV1". */
  readonly label: string;
  readonly entry: Entry;
  readonly unit: string;
  readonly hint: string;
  readonly guide: FieldGuide;
  /** Low, nominal and high values of the literature, where there are any. */
  readonly usual: Usual | null;
  readonly value: unknown;
  /** The value as it stands in the cell. */
  readonly shown: string;
  /** Where faults of it are told: "crew.0.bodyMassKg". */
  readonly path: string;
  /** Why it cannot be changed; null when it can. */
  readonly fixed: string | null;
  /** True where the plan goes on with what the row began with: nobody has given a value yet. */
  readonly toGive: boolean;
  /** What is unknown until then, where the plan goes on without the value. */
  readonly unknown?: string | undefined;
  /** True when it stands for several cells that do not all hold this value. */
  readonly mixed?: boolean;
  /** The branches of a plan with this value in it. */
  readonly put: (value: unknown) => (plan: Plan) => Partial<Plan>;
  /** What the change is called in the history. */
  readonly step: string;
}

export interface Line {
  readonly id: string;
  readonly name: string;
  /** The number by which it is called beside its name, where it has one. */
  readonly number: string | null;
  readonly cells: readonly (Cell | null)[];
}

export interface Column {
  readonly label: string;
  readonly unit: string;
  readonly width: number;
  readonly group: string;
  readonly align: Entry["align"];
  /** Other words that stand over it in spreadsheets. */
  readonly heads?: readonly string[];
}

/** A new row, or why there can be none. */
export type NewRow = { readonly change: (plan: Plan) => Partial<Plan>; readonly id: string } | string;

/** What can be done with whole rows of a list. */
interface RowWork {
  /** What a row is: "crew member". */
  readonly one: string;
  readonly add: (plan: Plan) => NewRow;
  /** Sorts of rows that begin with more than a blank one; none for most tables. */
  readonly sorts: readonly {
    readonly name: string;
    readonly says: string;
    readonly add: (plan: Plan) => NewRow;
  }[];
  readonly copy: (plan: Plan, id: string) => NewRow;
  readonly remove: (plan: Plan, id: string) => Removal;
}

/** Columns that are looked at together. */
export interface ColumnSet {
  readonly name: string;
  /** By their place in the table; the first column is always among them. */
  readonly columns: readonly number[];
}

/** Something that rows lack, and which. */
export interface Lack {
  readonly words: string;
  readonly rows: ReadonlySet<string>;
}

export interface Table {
  readonly id: string;
  readonly title: string;
  readonly intro: string;
  /** First column is the line's head and stays in sight. */
  readonly columns: readonly Column[];
  readonly lines: (plan: Plan) => readonly Line[];
  /** One line alone; null when there is none of this id. */
  readonly line: (plan: Plan, id: string) => Line | null;
  readonly rows: RowWork | null;
  /** Where there are more columns than fit a screen: sets of them; empty for none. */
  readonly sets: readonly ColumnSet[];
  /** What rows lack that paper or the judge would need; a thing that none lacks is not named. */
  readonly lacks: (plan: Plan) => readonly Lack[];
  /** How many of its values nobody has given. */
  readonly toGive: (plan: Plan) => number;
  /** What stands behind the first cell of a line and is not written in, by the line's id: what the day makes of it. */
  readonly beside: {
    readonly label: string;
    readonly of: (plan: Plan, verdict: Verdict) => ReadonlyMap<string, Beside>;
  } | null;
}

/** Words beside a cell, and how what they say stands. */
export interface Beside {
  readonly text: string;
  readonly state: "breach" | "tight" | "fine" | "idle" | "unknown";
}

function pluralOf(one: string): string {
  return one.endsWith("s") ? `${one}es` : `${one}s`;
}

/** The field that most things begin with. */
export function named(width: number): Pick<Field<unknown>, "label" | "path" | "entry" | "width" | "hint"> {
  return { label: "Name", path: "name", entry: text, width, hint: "How it is called on screen and paper." };
}

interface ListSpec<Row> {
  readonly id: string;
  readonly title: string;
  readonly intro: string;
  readonly one: string;
  /** Where the list lies: "site.places". */
  readonly list: string;
  /** Its name for removal; null when nothing can name a row. */
  readonly kind: Removable | null;
  readonly keyOf: (row: Row) => string;
  readonly nameOf: (row: Row, plan: Plan) => string;
  /** The number of a row, of things that are called by one. */
  readonly numberOf?: (row: Row, plan: Plan) => string;
  readonly fields: readonly Field<Row>[];
  /** A new row that leaves the plan sound, or why there can be none. `id` is free. */
  readonly blank: (plan: Plan, id: string) => Row | string;
  /** A second one like `row`, or why there can be none. */
  readonly copy?: (row: Row, id: string, plan: Plan) => Row | string;
  /** What new ids begin with. */
  readonly prefix: string;
  /** Sets of columns by the groups that they show. */
  readonly sets?: readonly { readonly name: string; readonly groups: readonly string[] }[];
  /** What a row may lack: words for the count, and whether this one does. */
  readonly lacks?: readonly { readonly words: string; readonly is: (row: Row, plan: Plan) => boolean }[];
  /** Sorts of rows: what each begins with besides a blank one. */
  readonly sorts?: readonly {
    readonly name: string;
    readonly says: string;
    readonly part: (plan: Plan) => Partial<Row>;
  }[];
}

/** Rows that are told apart by their id and called by their name. */
export const BY_NAME = {
  keyOf: (row: { readonly id: string }): string => row.id,
  nameOf: (row: { readonly name: string }): string => row.name,
};

/** A thing that may hold values which nobody has given. */
interface Begun {
  readonly toGive?: readonly string[];
}

/** The fields of things in the list at `path` that a person has to give. */
function toGiveIn(path: string): readonly string[] {
  const list = path.split(".").at(-1) ?? "";
  return Object.hasOwn(TO_GIVE, list) ? TO_GIVE[list as keyof typeof TO_GIVE] : [];
}

/** The table of one list of the plan. */
export function listTable<Row extends object>(spec: ListSpec<Row>): Table {
  const listOf = (plan: Plan): readonly Row[] => at(plan, spec.list) as readonly Row[];
  const put = (plan: Plan, rows: readonly Row[]): Partial<Plan> => branch(plan, spec.list, rows);
  const paths = spec.fields.map((field) => `${spec.list}.*.${field.path}`);
  const guides = spec.fields.map((field, column) => guideOf(field, paths[column]!));
  const { most } = guideTo(spec.list);
  const asked = toGiveIn(spec.list);

  const appended = (plan: Plan, make: (id: string) => Row | string): NewRow => {
    const rows = listOf(plan);
    if (most !== null && rows.length >= most)
      return `A plan holds at most ${counted(most, spec.one, pluralOf(spec.one))}.`;
    const taken = new Set(rows.map(spec.keyOf));
    let number = rows.length + 1;
    while (taken.has(`${spec.prefix}-${number}`)) number += 1;
    const row = make(`${spec.prefix}-${number}`);
    if (typeof row === "string") return row;
    return { id: spec.keyOf(row), change: (now) => put(now, [...listOf(now), row]) };
  };
  /** A blank row, with what of it nobody has given. */
  const begun = (plan: Plan, id: string, part: Partial<Row>): Row | string => {
    const blank = spec.blank(plan, id);
    if (typeof blank === "string") return blank;
    const toGive = asked.filter((field) => at(part, field) === undefined);
    return { ...blank, ...part, ...(toGive.length > 0 ? { toGive } : {}) };
  };

  const lineOf = (plan: Plan, row: Row, index: number): Line => {
    const id = spec.keyOf(row);
    const name = spec.nameOf(row, plan);
    return {
      id,
      name,
      number: spec.numberOf?.(row, plan) ?? null,
      cells: spec.fields.map((field, column): Cell => {
        const path = `${spec.list}.${index}.${field.path}`;
        const write = (one: Row, value: unknown, now: Plan): Row =>
          given(field.write?.(one, value, now) ?? (withAt(one, field.path, value, field.prune) as Row), [
            field.path,
          ]);
        const value = field.read ? field.read(row, plan) : at(row, field.path);
        const entry = field.entryFor?.(row, plan) ?? field.entry;
        return {
          ...faceOf(field, guides[column]!, paths[column]!),
          entry,
          id: `${spec.id}/${id}/${column}`,
          label: `${field.label} of ${name}`,
          path,
          value,
          shown: entry.show(value, plan),
          fixed: field.apart?.(row, plan) ?? null,
          toGive: (row as Begun).toGive?.includes(field.path) ?? false,
          put: (next) => (now) =>
            put(
              now,
              listOf(now).map((one) => (spec.keyOf(one) === id ? write(one, next, now) : one)),
            ),
          step: `Change ${lowerFirst(field.label)} of ${name}`,
        };
      }),
    };
  };

  return {
    id: spec.id,
    title: spec.title,
    intro: spec.intro,
    columns: spec.fields.map((field) =>
      columnOf(field.path === "name" ? { ...field, heads: [spec.one, ...(field.heads ?? [])] } : field),
    ),
    lines: (plan) => listOf(plan).map((row, index) => lineOf(plan, row, index)),
    line(plan, id) {
      const index = listOf(plan).findIndex((row) => spec.keyOf(row) === id);
      const row = listOf(plan)[index];
      return row ? lineOf(plan, row, index) : null;
    },
    sets: (spec.sets ?? []).map(({ name, groups }) => ({
      name,
      columns: [
        0,
        ...groups.flatMap((group) =>
          spec.fields.flatMap((field, column) => (column > 0 && field.group === group ? [column] : [])),
        ),
      ],
    })),
    lacks: (plan) =>
      (spec.lacks ?? []).flatMap(({ words, is }) => {
        const rows = new Set(
          listOf(plan)
            .filter((row) => is(row, plan))
            .map(spec.keyOf),
        );
        return rows.size > 0 ? [{ words, rows }] : [];
      }),
    toGive: (plan) =>
      asked.length === 0
        ? 0
        : listOf(plan).reduce((sum, row) => sum + ((row as Begun).toGive?.length ?? 0), 0),
    beside: null,
    rows: {
      one: spec.one,
      add: (plan) => appended(plan, (id) => begun(plan, id, {})),
      sorts: (spec.sorts ?? []).map(({ name, says, part }) => ({
        name,
        says,
        add: (plan) => appended(plan, (id) => begun(plan, id, part(plan))),
      })),
      copy: (plan, id) => {
        const row = listOf(plan).find((one) => spec.keyOf(one) === id);
        if (!row) return "There is no such row any more.";
        return appended(plan, (fresh) => spec.copy?.(row, fresh, plan) ?? { ...row, id: fresh });
      },
      remove: (plan, id) =>
        spec.kind === null
          ? {
              hindrances: [],
              consequences: [],
              change: (now) =>
                put(
                  now,
                  listOf(now).filter((one) => spec.keyOf(one) !== id),
                ),
            }
          : removalOf(plan, spec.kind, id),
    },
  };
}

/** A line of a sheet: its name and a field of the plan for each column. */
export interface SheetLine {
  readonly name: string;
  readonly fields: readonly (Field<Plan> | null)[];
}

/** The table of single fields. The first column holds the lines' names. */
export function sheetTable(spec: {
  readonly id: string;
  readonly title: string;
  readonly intro: string;
  readonly columns: readonly Column[];
  readonly lines: readonly SheetLine[];
  readonly beside?: NonNullable<Table["beside"]>;
}): Table {
  const guides = spec.lines.map((line) => line.fields.map((field) => field && guideOf(field, field.path)));
  const lines = (plan: Plan): Line[] =>
    spec.lines.map((line, row) => ({
      id: line.name,
      name: line.name,
      number: null,
      cells: line.fields.map((field, column): Cell | null => {
        const guide = guides[row]![column];
        if (!field || !guide) return null;
        const value = field.read ? field.read(plan, plan) : at(plan, field.path);
        const entry = field.entryFor?.(plan, plan) ?? field.entry;
        return {
          ...faceOf(field, guide, field.path),
          entry,
          id: `${spec.id}/${row}/${column}`,
          label: field.label,
          path: field.path,
          value,
          shown: entry.show(value, plan),
          fixed: field.apart?.(plan, plan) ?? null,
          toGive: isToGive(plan, field.path),
          put: (next) => (now) => {
            const { list, left } = holderOf(field.path);
            const wrote = field.write?.(now, next, now) ?? (withAt(now, field.path, next) as Plan);
            if (!Object.hasOwn(TO_GIVE, list)) return branchOf(wrote, field.path);
            return branch(wrote, list, given(at(wrote, list) as object, [left]));
          },
          step: `Change ${lowerFirst(field.label)}`,
        };
      }),
    }));
  return {
    id: spec.id,
    title: spec.title,
    intro: spec.intro,
    columns: spec.columns,
    rows: null,
    sets: [],
    lacks: () => [],
    toGive: (plan) =>
      spec.lines.reduce(
        (sum, line) => sum + line.fields.filter((field) => field && isToGive(plan, field.path)).length,
        0,
      ),
    beside: spec.beside ?? null,
    lines,
    line: (plan, id) => lines(plan).find((one) => one.id === id) ?? null,
  };
}

/** A path of the plan as the thing that holds the field, and the field's path in it. */
function holderOf(path: string): { readonly list: string; readonly left: string } {
  const dot = path.indexOf(".");
  return dot < 0 ? { list: "", left: path } : { list: path.slice(0, dot), left: path.slice(dot + 1) };
}

/** True where the plan says of the single field at `path` that nobody has given it. */
function isToGive(plan: Plan, path: string): boolean {
  const { list, left } = holderOf(path);
  return Object.hasOwn(TO_GIVE, list) && ((at(plan, list) as Begun).toGive?.includes(left) ?? false);
}

/** The plan's branch that holds `path`, with `value` there. */
function branch(plan: Plan, path: string, value: unknown): Partial<Plan> {
  return branchOf(withAt(plan, path, value) as Plan, path);
}

function branchOf(plan: Plan, path: string): Partial<Plan> {
  const key = path.split(".")[0] as keyof Plan;
  return { [key]: plan[key] };
}

function guideOf<Row>(field: Field<Row>, path: string): FieldGuide {
  // A field that is only shown has no place in the schema.
  return field.read && !field.write ? UNGUIDED : guideTo(path);
}

const UNGUIDED: FieldGuide = {
  words: "",
  low: null,
  high: null,
  whole: false,
  optional: true,
  most: null,
};

function faceOf<Row>(
  field: Field<Row>,
  guide: FieldGuide,
  path: string,
): Pick<Cell, "entry" | "unit" | "hint" | "guide" | "usual" | "unknown"> {
  return {
    entry: field.entry,
    unit: field.unit ?? "",
    hint: field.hint ?? guide.words,
    guide,
    usual: usualOf(path),
    unknown: field.unknown,
  };
}

function columnOf<Row>({ label, unit = "", width, group = "", entry, heads = [] }: Field<Row>): Column {
  return { label, unit, width, group, align: entry.align, heads };
}

/** First letter small, unless the word is an abbreviation. */
function lowerFirst(words: string): string {
  return /^[A-Z][a-z ]/.test(words) ? words.charAt(0).toLowerCase() + words.slice(1) : words;
}

/** The table with these of its columns only; itself for null. */
export function narrowed(table: Table, set: ColumnSet | null): Table {
  if (!set) return table;
  const columns = set.columns.flatMap((column) => table.columns[column] ?? []);
  const line = (one: Line): Line => ({
    ...one,
    cells: set.columns.map((column) => one.cells[column] ?? null),
  });
  return {
    ...table,
    columns,
    lines: (plan) => table.lines(plan).map(line),
    line(plan, id) {
      const found = table.line(plan, id);
      return found && line(found);
    },
  };
}

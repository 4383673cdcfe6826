import { at, type FieldGuide, given, guideTo, type Plan, TO_GIVE, withAt } from "../../plan/index.ts";
import { removalOf, type Removable, type Removal } from "../../session/index.ts";
import { counted } from "../../words/index.ts";
import { text } from "./entry.ts";
import { type Begun, branch, columnOf, faceOf, guideOf, lowerFirst } from "./fieldcells.ts";
import type { Cell, ColumnSet, Field, Lack, Line, NewRow, RowWork, Table } from "./table.ts";

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

/** The fields of things in the list at `path` that a person has to give. */
function toGiveIn(path: string): readonly string[] {
  const list = path.split(".").at(-1) ?? "";
  return Object.hasOwn(TO_GIVE, list) ? TO_GIVE[list as keyof typeof TO_GIVE] : [];
}

/** The table of one list of the plan. */
export function listTable<Row extends object>(spec: ListSpec<Row>): Table {
  const rows = rowsOf(spec);
  const lineOf = lineMaker(spec, rows);
  return {
    id: spec.id,
    title: spec.title,
    intro: spec.intro,
    columns: spec.fields.map((field) =>
      columnOf(field.path === "name" ? { ...field, heads: [spec.one, ...(field.heads ?? [])] } : field),
    ),
    lines: (plan) => rows.all(plan).map((row, index) => lineOf(plan, row, index)),
    line(plan, id) {
      const index = rows.all(plan).findIndex((row) => spec.keyOf(row) === id);
      const row = rows.all(plan)[index];
      return row ? lineOf(plan, row, index) : null;
    },
    sets: columnSets(spec),
    lacks: (plan) => lacksOf(spec, rows.all(plan), plan),
    toGive: (plan) =>
      toGiveIn(spec.list).length === 0
        ? 0
        : rows.all(plan).reduce((sum, row) => sum + ((row as Begun).toGive?.length ?? 0), 0),
    beside: null,
    rows: rowWork(spec, rows),
  };
}

/** The rows of a list, and how they are put back. */
interface Rows<Row> {
  readonly all: (plan: Plan) => readonly Row[];
  /** The branch of the plan with what `change` makes of the rows. */
  readonly put: (plan: Plan, change: (rows: readonly Row[]) => readonly Row[]) => Partial<Plan>;
}

function rowsOf<Row>({ list }: ListSpec<Row>): Rows<Row> {
  const all = (plan: Plan): readonly Row[] => at(plan, list) as readonly Row[];
  return { all, put: (plan, change) => branch(plan, list, change(all(plan))) };
}

/** A field with its place among the columns and what the schema says of it. */
interface FieldColumn<Row> {
  readonly field: Field<Row>;
  readonly place: number;
  readonly path: string;
  readonly guide: FieldGuide;
}

/** A row with its place in the list and what it is called. */
interface NamedRow<Row> {
  readonly row: Row;
  readonly index: number;
  readonly id: string;
  readonly name: string;
}

/** Makes the line of a row; what is the same for all rows is looked up once. */
function lineMaker<Row extends object>(
  spec: ListSpec<Row>,
  rows: Rows<Row>,
): (plan: Plan, row: Row, index: number) => Line {
  const columns = spec.fields.map((field, place): FieldColumn<Row> => {
    const path = `${spec.list}.*.${field.path}`;
    return { field, place, path, guide: guideOf(field, path) };
  });
  return (plan, row, index) => {
    const named = { row, index, id: spec.keyOf(row), name: spec.nameOf(row, plan) };
    return {
      id: named.id,
      name: named.name,
      number: spec.numberOf?.(row, plan) ?? null,
      cells: columns.map((column) => cellOf(spec, rows, plan, column, named)),
    };
  };
}

function cellOf<Row extends object>(
  spec: ListSpec<Row>,
  rows: Rows<Row>,
  plan: Plan,
  { field, place, path, guide }: FieldColumn<Row>,
  { row, index, id, name }: NamedRow<Row>,
): Cell {
  const value = field.read ? field.read(row, plan) : at(row, field.path);
  const entry = field.entryFor?.(row, plan) ?? field.entry;
  const fixed = field.apart?.(row, plan) ?? null;
  return {
    ...faceOf(field, guide, path),
    entry,
    id: `${spec.id}/${id}/${place}`,
    label: `${field.label} of ${name}`,
    path: `${spec.list}.${index}.${field.path}`,
    value,
    // What does not apply and has no value stands for nothing: not for a default, and not for something left out.
    shown: fixed !== null && value === undefined ? "" : entry.show(value, plan),
    fixed,
    toGive: (row as Begun).toGive?.includes(field.path) ?? false,
    doubt: field.doubt?.(row, plan) ?? null,
    put: (next) => (now) =>
      rows.put(now, (all) =>
        all.map((one) => (spec.keyOf(one) === id ? written(field, one, next, now) : one)),
      ),
    step: `Change ${lowerFirst(field.label)} of ${name}`,
  };
}

/** The row with a value in a field, which is given from then on. */
function written<Row extends object>(field: Field<Row>, row: Row, value: unknown, plan: Plan): Row {
  const wrote = field.write?.(row, value, plan) ?? (withAt(row, field.path, value, field.prune) as Row);
  return given(wrote, [field.path]);
}

/** The sets of columns, by the groups that they show; the first column is in each. */
function columnSets<Row>({ sets = [], fields }: ListSpec<Row>): readonly ColumnSet[] {
  const inGroup = (group: string): number[] =>
    fields.flatMap((field, column) => (column > 0 && field.group === group ? [column] : []));
  return sets.map(({ name, groups }) => ({ name, columns: [0, ...groups.flatMap(inGroup)] }));
}

function lacksOf<Row>(
  { lacks = [], keyOf }: ListSpec<Row>,
  rows: readonly Row[],
  plan: Plan,
): readonly Lack[] {
  return lacks.flatMap(({ words, is }) => {
    const lacking = new Set(rows.filter((row) => is(row, plan)).map(keyOf));
    return lacking.size > 0 ? [{ words, rows: lacking }] : [];
  });
}

/** What can be done with the rows of a list. */
function rowWork<Row extends object>(spec: ListSpec<Row>, rows: Rows<Row>): RowWork {
  const add = (plan: Plan, part: Partial<Row>): NewRow =>
    appended(spec, rows, plan, (id) => begun(spec, plan, id, part));
  return {
    one: spec.one,
    add: (plan) => add(plan, {}),
    sorts: (spec.sorts ?? []).map(({ name, says, part }) => ({
      name,
      says,
      add: (plan) => add(plan, part(plan)),
    })),
    copy(plan, id) {
      const row = rows.all(plan).find((one) => spec.keyOf(one) === id);
      if (!row) return "There is no such row any more.";
      return appended(spec, rows, plan, (fresh) => spec.copy?.(row, fresh, plan) ?? { ...row, id: fresh });
    },
    remove: (plan, id) => (spec.kind === null ? loneRemoval(spec, rows, id) : removalOf(plan, spec.kind, id)),
  };
}

/** A row that is made with a free id and stands last, or why there can be none. */
function appended<Row>(
  spec: ListSpec<Row>,
  { all, put }: Rows<Row>,
  plan: Plan,
  make: (id: string) => Row | string,
): NewRow {
  const rows = all(plan);
  const { most } = guideTo(spec.list);
  if (most !== null && rows.length >= most)
    return `A plan holds at most ${counted(most, spec.one, pluralOf(spec.one))}.`;
  const taken = new Set(rows.map(spec.keyOf));
  let number = rows.length + 1;
  while (taken.has(`${spec.prefix}-${number}`)) number += 1;
  const row = make(`${spec.prefix}-${number}`);
  if (typeof row === "string") return row;
  return { id: spec.keyOf(row), change: (now) => put(now, (others) => [...others, row]) };
}

/** A blank row, with what of it nobody has given. */
function begun<Row extends object>(
  spec: ListSpec<Row>,
  plan: Plan,
  id: string,
  part: Partial<Row>,
): Row | string {
  const blank = spec.blank(plan, id);
  if (typeof blank === "string") return blank;
  const toGive = toGiveIn(spec.list).filter((field) => at(part, field) === undefined);
  return { ...blank, ...part, ...(toGive.length > 0 ? { toGive } : {}) };
}

/** The removal of a row that nothing else can name. */
function loneRemoval<Row>({ keyOf }: ListSpec<Row>, { put }: Rows<Row>, id: string): Removal {
  return {
    hindrances: [],
    consequences: [],
    change: (now) => put(now, (all) => all.filter((one) => keyOf(one) !== id)),
  };
}

function pluralOf(one: string): string {
  return one.endsWith("s") ? `${one}es` : `${one}s`;
}

import type { Verdict } from "../../answers/index.ts";
import type { FieldGuide, Plan, Usual } from "../../plan/index.ts";
import type { Removal } from "../../session/index.ts";
import type { Entry } from "./entry.ts";

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
  /** Why a value that is allowed can hardly be meant; null for any other. */
  readonly doubt?: (row: Row, plan: Plan) => string | null;
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
  /** Why its value can hardly be meant; null where nothing speaks against it. */
  readonly doubt?: string | null;
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
export interface RowWork {
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

import { at, given, type Plan, TO_GIVE, withAt } from "../../plan/index.ts";
import { type Begun, branch, branchOf, faceOf, guideOf, lowerFirst } from "./fieldcells.ts";
import type { Cell, Column, Field, Line, Table } from "./table.ts";

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

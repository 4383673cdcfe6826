import { isEqual, keysOf } from "../kernel/index.ts";
import { at } from "./pathway.ts";
import type { Plan } from "./plan.ts";
import type { TO_GIVE } from "./togive.ts";

/** A thing that may hold values which nobody has given. */
interface Begun {
  readonly id: string;
  readonly name: string;
  readonly toGive?: readonly string[] | undefined;
}

const rowsOf: Readonly<Record<keyof typeof TO_GIVE, (plan: Plan) => readonly Begun[]>> = {
  site: ({ site }) => [{ id: "site", name: site.name, toGive: site.toGive }],
  stay: ({ stay }) => [{ id: "stay", name: "Stay", toGive: stay.toGive }],
  crew: (plan) => plan.crew,
  suits: (plan) => plan.suits,
  containers: (plan) => plan.containers,
  places: (plan) => plan.site.places,
  tasks: (plan) => plan.tasks,
};

/** `row` without what it names in `toGive` among `fields`. */
export function given<Row extends object>(row: Row, fields: readonly string[]): Row {
  const { toGive, ...rest } = row as Row & Pick<Begun, "toGive">;
  const left = toGive?.filter((field) => !fields.includes(field)) ?? [];
  if (left.length === (toGive?.length ?? 0)) return row;
  return (left.length === 0 ? rest : { ...rest, toGive: left }) as Row;
}

/** `after` with everything given in it that holds another value than in `before`: whoever changes a value gives it. */
export function givenBetween(before: Plan, after: Plan): Plan {
  // Asked for every plan that a hand makes, sixty a second.
  if (!keysOf(rowsOf).some((list) => rowsOf[list](after).some(({ toGive = [] }) => toGive.length > 0)))
    return after;
  const one = <Row extends object & Pick<Begun, "toGive">>(was: Row, now: Row): Row =>
    given(
      now,
      (now.toGive ?? []).filter((field) => !isEqual(at(was, field), at(now, field))),
    );
  const rows = <Row extends Begun>(was: readonly Row[], now: readonly Row[]): Row[] => {
    const known = was === now ? null : new Map(was.map((row) => [row.id, row]));
    return now.map((row) => {
      const old = row.toGive === undefined ? undefined : known?.get(row.id);
      return old ? one(old, row) : row;
    });
  };
  return {
    ...after,
    stay: one(before.stay, after.stay),
    crew: rows(before.crew, after.crew),
    suits: rows(before.suits, after.suits),
    containers: rows(before.containers, after.containers),
    tasks: rows(before.tasks, after.tasks),
    site: { ...one(before.site, after.site), places: rows(before.site.places, after.site.places) },
  };
}

/** One value that nobody has given. */
export interface ToGive {
  readonly list: keyof typeof TO_GIVE;
  readonly id: string;
  readonly name: string;
  readonly field: string;
}

/** All values of the plan that nobody has given. */
export function stillToGive(plan: Plan): readonly ToGive[] {
  return keysOf(rowsOf).flatMap((list) =>
    rowsOf[list](plan).flatMap(({ id, name, toGive = [] }) =>
      toGive.map((field): ToGive => ({ list, id, name, field })),
    ),
  );
}

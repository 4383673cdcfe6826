import { isEqual } from "../../kernel/index.ts";
import type { Place, Plan } from "../../plan/index.ts";
import { metres } from "../../words/index.ts";
import { idFrom, sameName } from "./names.ts";
import { meaningOf, PLACE_KIND_VOCABULARY, questionsOf } from "./questions.ts";
import {
  leftOut,
  type Made,
  measured,
  type Reading,
  type Row,
  type RowOutcome,
  textsOf,
  whyMissing,
} from "./reading.ts";

/** Rows of a list as places of the plan: one that the plan has by its name is moved, the others are added. */
export function placesFrom(plan: Plan, rows: readonly Row[], reading: Reading): Made {
  const taken = new Set(plan.site.places.map(({ id }) => id));
  const made = new Map<string, { readonly row: Row; readonly place: Place; readonly outcome: RowOutcome }>();
  const named = new Set<string>();
  const left: RowOutcome[] = [];
  for (const row of rows) {
    const name = row.cells.get("name");
    const kind = kindOf(row, reading);
    const before = plan.site.places.find((one) =>
      kind === "lander" ? one.kind === "lander" : name !== undefined && sameName(one.name) === sameName(name),
    );
    const lost: string[] = [];
    const place = placeOf(row, before, kind, reading, lost);
    if (typeof place === "string") left.push(leftOut(row, place));
    else if (named.has(sameName(place.name)) || (before && made.has(before.id)))
      left.push(leftOut(row, "its name stands above already"));
    else {
      named.add(sameName(place.name));
      const id = before?.id ?? idFrom(place.name, "place", taken);
      const whole = { ...place, id };
      made.set(id, { row, place: whole, outcome: outcomeOf(row, before, whole, lost) });
    }
  }
  const places = [
    ...plan.site.places.map((place) => made.get(place.id)?.place ?? place),
    ...[...made.values()]
      .map(({ place }) => place)
      .filter(({ id }) => !plan.site.places.some((one) => one.id === id)),
  ];
  return {
    questions: questionsOf(PLACE_KIND_VOCABULARY, textsOf(rows, "kind")),
    rows: [...[...made.values()].map(({ outcome }) => outcome), ...left],
    notes: [],
    parts: { site: { ...plan.site, places } },
    rowAt(path) {
      const [, , index] = path.split(".");
      const id = path.startsWith("site.places.") ? places[Number(index)]?.id : undefined;
      return (id !== undefined && made.get(id)?.row) || null;
    },
  };
}

function kindOf(row: Row, reading: Reading): Place["kind"] | null {
  const text = row.cells.get("kind");
  const kind = text === undefined ? null : meaningOf(PLACE_KIND_VOCABULARY, text, reading.answers);
  return kind === "lander" || kind === "station" || kind === "deployment" ? kind : null;
}

const NO_METRES = "it has no metres east and north of the lander";

function placeOf(
  row: Row,
  before: Place | undefined,
  kind: Place["kind"] | null,
  reading: Reading,
  lost: string[],
): Omit<Place, "id"> | string {
  const name = row.cells.get("name") ?? before?.name;
  const eastM = measured(row, "east", reading, lost) ?? before?.eastM;
  const northM = measured(row, "north", reading, lost) ?? before?.northM;
  const upM = measured(row, "up", reading, lost) ?? before?.upM ?? 0;
  if (name === undefined) return "it has no name";
  if (eastM === undefined) return whyMissing(row, "east", reading.kind, NO_METRES);
  if (northM === undefined) return whyMissing(row, "north", reading.kind, NO_METRES);
  if ((kind ?? before?.kind) === "lander" && (eastM !== 0 || northM !== 0))
    return "east and north are counted from the lander, which is at 0";
  return { name, kind: kind ?? before?.kind ?? "station", eastM, northM, upM };
}

function outcomeOf(row: Row, before: Place | undefined, place: Place, lost: readonly string[]): RowOutcome {
  const state = !before ? "new" : isEqual(before, place) ? "same" : "changed";
  const says = state === "changed" && before ? changesOf(before, place) : [];
  return { line: row.line, number: "", name: place.name, state, says, lost };
}

/** What is otherwise of a place, each with what it was. */
function changesOf(before: Place, place: Place): readonly string[] {
  const change = (label: string, is: string, was: string): readonly string[] =>
    is === was ? [] : [`${label} ${is}, was ${was}`];
  return [
    ...change("name", place.name, before.name),
    ...change("kind", place.kind, before.kind),
    ...change("east", metres(place.eastM, "given"), metres(before.eastM, "given")),
    ...change("north", metres(place.northM, "given"), metres(before.northM, "given")),
    ...change("up", metres(place.upM, "given"), metres(before.upM, "given")),
  ];
}

import { duration, isEqual } from "../../kernel/index.ts";
import {
  type Container,
  given,
  isTaskNumber,
  NEW_TASK,
  type Plan,
  type Task,
  TO_GIVE,
} from "../../plan/index.ts";
import { listed, mass } from "../../words/index.ts";
import { idFrom, sameName } from "./names.ts";
import {
  containerVocabulary,
  crewVocabulary,
  KIND_VOCABULARY,
  meaningOf,
  NEW,
  placeVocabulary,
  questionsOf,
  type Vocabulary,
} from "./questions.ts";
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
import { precedence, References } from "./references.ts";
import { isCalled, taskNumbered } from "./tasknames.ts";
import { differences } from "./taskwords.ts";
import { tickOf } from "./values.ts";

/** Requests of a list as tasks of the plan. A row whose number (or, without one, name) the plan has updates that task. */
export function tasksFrom(plan: Plan, rows: readonly Row[], reading: Reading): Made {
  const words = vocabulariesOf(plan);
  const placed = rowsById(plan, rows);
  const references = new References(plan, placed.rows);
  const boxes = new NewContainers(plan, words.container, reading);
  const made = new Map<string, { readonly row: Row; readonly task: Task; readonly outcome: RowOutcome }>();
  const left: RowOutcome[] = [];
  for (const [id, row] of placed.rows) {
    const before = plan.tasks.find((task) => task.id === id);
    const lost: string[] = [];
    const task = taskOf(row, id, before, reading, words, boxes, lost);
    if (typeof task === "string") left.push(leftOut(row, task));
    else made.set(id, { row, task, outcome: outcomeOf(row, before, task, plan, boxes.containers, lost) });
  }
  const tasks = [
    ...plan.tasks.map((task) => made.get(task.id)?.task ?? task),
    ...[...made.values()]
      .map(({ task }) => task)
      .filter(({ id }) => !plan.tasks.some((task) => task.id === id)),
  ];
  const known = new Set(tasks.map(({ id }) => id));
  const after = linksAfter(plan, made, references, known, reading);
  const outcomes = [...made].map(([id, { outcome }]) => after.withLinks(id, outcome));
  return {
    questions: questionsIn(rows, words, reading),
    rows: [
      ...outcomes,
      ...left,
      ...placed.twice.map((row) => leftOut(row, "its number or name stands above already")),
    ],
    notes: [...boxes.notes(), ...missingNote(plan, placed.rows)],
    parts: { tasks, links: after.links, containers: [...plan.containers, ...boxes.containers] },
    rowAt(path) {
      const [branch, index] = path.split(".");
      const id = branch === "tasks" ? tasks[Number(index)]?.id : undefined;
      return (id !== undefined && made.get(id)?.row) || null;
    },
  };
}

type Words = Readonly<Record<"kind" | "place" | "crew" | "container", Vocabulary>>;

function vocabulariesOf(plan: Plan): Words {
  return {
    kind: KIND_VOCABULARY,
    place: placeVocabulary(plan),
    crew: crewVocabulary(plan),
    container: containerVocabulary(plan),
  };
}

/** Rows by the id of their task, in the list's order, and those whose number or name stands there twice. */
interface RowsById {
  readonly rows: ReadonlyMap<string, Row>;
  readonly twice: readonly Row[];
}

function rowsById(plan: Plan, all: readonly Row[]): RowsById {
  const rows = new Map<string, Row>();
  const twice: Row[] = [];
  const taken = new Set(plan.tasks.map(({ id }) => id));
  const seen = new Set<string>();
  for (const row of all) {
    const { number = "", name = "" } = Object.fromEntries(row.cells);
    const key = sameName(number || name);
    if (key === "" || seen.has(key)) {
      twice.push(row);
      continue;
    }
    seen.add(key);
    const known = taskNumbered(plan, number) ?? plan.tasks.find((task) => isCalled(task, name));
    const id = known && !rows.has(known.id) ? known.id : idFrom(number || name, "task", taken);
    rows.set(id, row);
  }
  return { rows, twice };
}

const TO = /\s+(?:to|->|→)\s+/i;

function questionsIn(rows: readonly Row[], words: Words, reading: Reading): Made["questions"] {
  const remote = ({ cells }: Row): boolean =>
    meaningOf(words.crew, cells.get("crew") ?? "1", reading.answers) === "0";
  const hasPlaces = reading.columns.some(({ target }) => target === "place");
  const places = rows.flatMap((row) => {
    const text = row.cells.get("place");
    if (text === undefined) return hasPlaces && !remote(row) ? [""] : [];
    return words.place.known(text) === null ? text.split(TO) : [];
  });
  return [
    ...questionsOf(words.kind, textsOf(rows, "kind")),
    ...questionsOf(words.place, [...places, ...textsOf(rows, "endPlace")]),
    ...questionsOf(words.crew, textsOf(rows, "crew")),
    ...questionsOf(words.container, textsOf(rows, "container")),
  ];
}

/** The task of a row, or why there can be none; what of the row is lost goes to `lost`. */
function taskOf(
  row: Row,
  id: string,
  before: Task | undefined,
  reading: Reading,
  words: Words,
  boxes: NewContainers,
  lost: string[],
): Task | string {
  const { cells } = row;
  const meant = (vocabulary: Vocabulary, target: string): string | null | undefined => {
    const text = cells.get(target);
    if (text === undefined) return undefined;
    const value = meaningOf(vocabulary, text, reading.answers);
    if (value === null) lost.push(`${vocabulary.column} “${text}”`);
    return value;
  };
  const name = cells.get("name") ?? before?.name;
  if (name === undefined) return "it has no name";
  const likely = measured(row, "likely", reading, lost);
  const likelyS = likely ?? before?.duration.likelyS;
  if (likelyS === undefined) return whyMissing(row, "likely", reading.kind, "it has no likely duration");
  const kind = kindOf(meant(words.kind, "kind")) ?? before?.kind ?? "survey";
  const crew = crewOf(meant(words.crew, "crew"), before);
  const where = wherePart(row, before, reading, words.place, lost);
  if (crew.count > 0 && where.place === undefined) return "it has no place, and a task with crew needs one";
  const brought = boxes.broughtBy(row, before, lost);
  const numbers = {
    walkM: measured(row, "walk", reading, lost),
    worth: measured(row, "worth", reading, lost),
    massOutKg: measured(row, "massOut", reading, lost),
  };
  const base: Omit<Task, "id" | "name" | "kind" | "duration"> = before ?? {
    ...NEW_TASK,
    effort: kind === "deployment" || kind === "upkeep" ? "deployment" : "geology",
  };
  // What nobody has given and the list repeats may have come from here: it stays to be given.
  const gives = likely !== undefined && likely !== before?.duration.likelyS;
  const rest = { ...given(base, gives ? TO_GIVE.tasks : []) };
  delete rest.place;
  delete rest.endPlace;
  delete rest.sample;
  delete rest.bringsNothing;
  return {
    ...rest,
    ...where,
    ...brought,
    ...Object.fromEntries(Object.entries(numbers).filter(([, value]) => value !== undefined)),
    id,
    ...numberPart(cells.get("number"), lost),
    name,
    kind,
    crew: { ...base.crew, ...crew },
    duration: durationOf(row, likelyS, before, reading, lost),
    must: tickIn(row, "must", reading, lost) ?? base.must,
    relay: tickIn(row, "relay", reading, lost) ?? base.relay,
    notes: cells.get("notes") ?? base.notes,
  };
}

/** The requester's number as the task's own, where it can be one. */
function numberPart(number: string | undefined, lost: string[]): Pick<Task, "number"> {
  if (number === undefined) return {};
  if (isTaskNumber(number)) return { number };
  lost.push(`number “${number}”, which is too long or has other signs than letters and digits`);
  return {};
}

function kindOf(value: string | null | undefined): Task["kind"] | undefined {
  return value === "sampling" || value === "deployment" || value === "survey" || value === "upkeep"
    ? value
    : undefined;
}

function crewOf(
  value: string | null | undefined,
  before: Task | undefined,
): Pick<Task["crew"], "count" | "named"> {
  if (value === undefined || value === null) return before?.crew ?? NEW_TASK.crew;
  if (!value.startsWith("ev:")) return { count: Number(value), named: [] };
  const [ids = "", more = ""] = value.slice(3).split("+");
  const members = ids.split(",");
  return { count: members.length + Number(more), named: members };
}

function wherePart(
  row: Row,
  before: Task | undefined,
  reading: Reading,
  places: Vocabulary,
  lost: string[],
): Pick<Task, "place" | "endPlace"> {
  const find = (word: string): string | undefined => {
    const id = meaningOf(places, word, reading.answers);
    if (id === null && word !== "") lost.push(`Place “${word}”`);
    return id ?? undefined;
  };
  const text = row.cells.get("place") ?? "";
  const [from = "", to, ...more] = places.known(text) === null ? text.split(TO) : [text];
  for (const word of more) lost.push(`Place “${word}”: a task ends at one place`);
  if (to !== undefined && row.cells.get("endPlace") !== undefined)
    lost.push(`Place “${to}”: the list says another end place`);
  const place = text === "" && before?.place !== undefined ? before.place : find(from);
  const end = row.cells.get("endPlace") ?? to;
  const endPlace = end === undefined ? (text === "" ? before?.endPlace : undefined) : find(end);
  return { ...(place === undefined ? {} : { place }), ...(endPlace === undefined ? {} : { endPlace }) };
}

/** Short and long case only where they lie on their sides of the likely one. */
function durationOf(
  row: Row,
  likelyS: number,
  before: Task | undefined,
  reading: Reading,
  lost: string[],
): Task["duration"] {
  const given = { low: measured(row, "low", reading, lost), high: measured(row, "high", reading, lost) };
  if (given.low !== undefined && given.low > likelyS)
    lost.push("At least, which is above the likely duration");
  if (given.high !== undefined && given.high < likelyS)
    lost.push("At most, which is under the likely duration");
  const low = given.low ?? before?.duration.lowS;
  const high = given.high ?? before?.duration.highS;
  return {
    likelyS: duration(likelyS),
    ...(low === undefined || low > likelyS ? {} : { lowS: duration(low) }),
    ...(high === undefined || high < likelyS ? {} : { highS: duration(high) }),
  };
}

/** A tick where the list has the column, a blank for no; undefined where it has not. */
function tickIn(row: Row, target: string, reading: Reading, lost: string[]): boolean | undefined {
  if (!reading.columns.some((column) => column.target === target)) return undefined;
  const text = row.cells.get(target) ?? "";
  const tick = tickOf(text);
  if (tick === null) lost.push(`“${text}” for yes or no`);
  return tick ?? undefined;
}

function outcomeOf(
  row: Row,
  before: Task | undefined,
  task: Task,
  plan: Plan,
  more: readonly Container[],
  lost: readonly string[],
): RowOutcome {
  const state = !before ? "new" : isEqual(before, task) ? "same" : "changed";
  const says = before
    ? differences(before, task, { ...plan, containers: [...plan.containers, ...more] })
    : [];
  return { line: row.line, number: row.cells.get("number") ?? "", name: task.name, state, says, lost };
}

/** Containers that the list names and the plan has not, each with room for what the list puts into it. */
class NewContainers {
  readonly #byName = new Map<string, { id: string; name: string; kg: number; litres: number }>();
  readonly #taken: Set<string>;

  constructor(
    readonly plan: Plan,
    readonly vocabulary: Vocabulary,
    readonly reading: Reading,
  ) {
    this.#taken = new Set(plan.containers.map(({ id }) => id));
  }

  /** What a row brings back, or that it brings nothing: 0 kg says so, a blank does not. */
  broughtBy(row: Row, before: Task | undefined, lost: string[]): Pick<Task, "sample" | "bringsNothing"> {
    const massKg = measured(row, "massBack", this.reading, lost);
    const volumeL = measured(row, "volumeBack", this.reading, lost);
    if (massKg === 0) return { bringsNothing: true };
    const word = row.cells.get("container");
    const meant =
      word === undefined ? before?.sample?.container : meaningOf(this.vocabulary, word, this.reading.answers);
    if (meant === undefined || meant === null) {
      if (word !== undefined) lost.push(`Container “${word}”`);
      if (massKg !== undefined) lost.push(`${mass(massKg, "given")} brought back, in no container`);
      return before?.bringsNothing ? { bringsNothing: true } : {};
    }
    const kg = massKg ?? before?.sample?.massKg;
    if (kg === undefined)
      lost.push(`the mass that goes into ${word ?? meant}: none is given, it stays unknown`);
    const litres = volumeL ?? before?.sample?.volumeL ?? 0;
    const container = meant === NEW ? this.#put(word ?? "Container", kg ?? 0, litres) : meant;
    return { sample: { ...before?.sample, container, massKg: kg ?? 0, volumeL: litres } };
  }

  #put(name: string, kg: number, litres: number): string {
    const key = sameName(name);
    const box = this.#byName.get(key) ?? {
      id: idFrom(name, "container", this.#taken),
      name,
      kg: 0,
      litres: 0,
    };
    // Whole grams, so that what fits to the gram is not refused for a binary remainder.
    box.kg = Math.round((box.kg + kg) * 1000) / 1000;
    box.litres += litres;
    this.#byName.set(key, box);
    return box.id;
  }

  get containers(): readonly Container[] {
    return [...this.#byName.values()].map(({ id, name, kg, litres }) => ({
      id,
      name,
      emptyMassKg: 0,
      capacityKg: kg,
      volumeL: litres,
      toGive: [...TO_GIVE.containers],
    }));
  }

  notes(): readonly string[] {
    const boxes = [...this.#byName.values()].map(({ name, kg }) => `${name} (${mass(kg, "given")})`);
    if (boxes.length === 0) return [];
    return [
      `New with room for what this list puts in: ${listed(boxes)}. What a new container weighs empty and what it holds at most is to be given in setup; until then it weighs 0 kg.`,
    ];
  }
}

/** Tasks that stay though a later issue of the list has them no more. */
function missingNote(plan: Plan, rows: ReadonlyMap<string, Row>): readonly string[] {
  const again = plan.tasks.filter(({ id }) => rows.has(id));
  const missing = plan.tasks.filter(({ id }) => !rows.has(id));
  return again.length === 0 || missing.length === 0
    ? []
    : [
        `In the plan and not in this list, so left as they are: ${missing.map(({ name }) => name).join(", ")}.`,
      ];
}

/** The links that the column After asks for, and those of an earlier issue that it asks for no more. */
function linksAfter(
  plan: Plan,
  made: ReadonlyMap<string, { readonly row: Row }>,
  references: References,
  known: ReadonlySet<string>,
  reading: Reading,
): { readonly links: Plan["links"]; withLinks(id: string, outcome: RowOutcome): RowOutcome } {
  const says = new Map<string, { more: string[]; lost: string[] }>();
  const has = reading.columns.some(({ target }) => target === "after");
  let links: Plan["links"] = plan.links;
  for (const [id, { row }] of has ? made : []) {
    const { found, missing } = references.among(row.cells.get("after") ?? "", known);
    const wanted = found.filter((from) => from !== id);
    const more: string[] = [];
    for (const from of wanted) {
      if (precedence.between(links, from, id)) continue;
      links = [...links, precedence.make(from, id, "before")];
      more.push(`after ${references.nameOf(from)}`);
    }
    for (const link of precedence.ownOf(links, id)) {
      if (wanted.includes(link.from.task)) continue;
      links = links.filter((one) => one !== link);
      more.push(`no longer after ${references.nameOf(link.from.task)}`);
    }
    const itself = found.length > wanted.length ? ["After itself"] : [];
    says.set(id, { more, lost: [...missing, ...itself] });
  }
  return {
    links,
    withLinks(id, outcome) {
      const { more, lost } = says.get(id) ?? { more: [], lost: [] };
      const state = outcome.state === "same" && more.length > 0 ? "changed" : outcome.state;
      return { ...outcome, state, says: [...outcome.says, ...more], lost: [...outcome.lost, ...lost] };
    },
  };
}

import { TASK_TEMPLATES, taskOf } from "./tasktemplates.ts";
import { done, duration } from "../../kernel/index.ts";
import {
  allCautions,
  freshNumber,
  isSwitchedOff,
  leavesInstrument,
  NEW_TASK,
  type Plan,
  type Task,
} from "../../plan/index.ts";
import { unpinned } from "../../session/index.ts";
import { bags } from "./bagentry.ts";
import { choice, type Entry, listOf, longText, perhaps, quantity, tag, text, tick } from "./entry.ts";
import { mishap } from "./mishapentry.ts";
import { one, some, SOURCES, uses } from "./nameentry.ts";
import { effort, sunAngle, sunRange } from "./specialentry.ts";
import { cautionLines, stepLines } from "./stepentry.ts";
import { doersOf, taskNumber } from "../../words/index.ts";
import { BY_NAME, listTable, named } from "./listtable.ts";
import type { Field } from "./table.ts";
import { moment, span, stretches } from "./timeentry.ts";

/** The requests for work. */

const withoutLoss = (row: Task): string | null =>
  row.mishap?.spoils === true || row.mishap?.remedy
    ? null
    : "Nothing is lost: give a rare event that ends in lost.";

const withoutRemedy = (row: Task): string | null =>
  row.mishap?.remedy ? null : "Nothing makes it good: say what does first.";

function withoutPart<Whole extends object>(whole: Whole, part: keyof Whole): Whole {
  const rest = { ...whole };
  delete rest[part];
  return rest;
}

/** The task with another rare event: what makes it good stays as long as something is lost. */
function withMishap({ mishap: before, ...row }: Task, value: unknown): Task {
  const mishap = value as Task["mishap"];
  if (!mishap) return row;
  const remedy = mishap.spoils === true ? before?.remedy : undefined;
  return { ...row, mishap: { ...mishap, ...(remedy ? { remedy } : {}) } };
}

/** The task made good by `value`; a new one takes five minutes, at the end of the task or, where nobody is at work in it, of the first with crew. */
function withRemedy(row: Task, value: unknown, { tasks }: Pick<Plan, "tasks">): Task {
  if (!row.mishap) return row;
  const mishap = withoutPart(row.mishap, "remedy");
  if (typeof value !== "string" || value.trim() === "") return { ...row, mishap };
  const host = row.crew.count > 0 ? undefined : tasks.find(({ crew }) => crew.count > 0)?.id;
  const fresh = {
    duration: { likelyS: duration(300) },
    steps: [],
    ...(host === undefined ? {} : { after: host }),
  };
  return { ...row, mishap: { ...mishap, remedy: { ...(row.mishap.remedy ?? fresh), name: value.trim() } } };
}

const withoutSample = (row: Task): string | null =>
  row.sample ? null : "Brings nothing back: choose a container first.";

const unplaced = "Needs a container: add one under Gear.";

const SWITCHED_OFF = "switched off";

/** Yes and no, and where a deployment is told not to leave an instrument, that in words. */
const instrument: Entry = {
  ...tick,
  show: (value, plan) => (value === SWITCHED_OFF ? SWITCHED_OFF : tick.show(value, plan)),
  draft: (value, plan) => (value === SWITCHED_OFF ? SWITCHED_OFF : tick.draft(value, plan)),
  read: (draft, plan, guide) => (draft === SWITCHED_OFF ? done(SWITCHED_OFF) : tick.read(draft, plan, guide)),
};

/** The ground that a task may ask for. */
const LIGHTS = [
  { id: "lit", name: "In the sun" },
  { id: "shaded", name: "In shadow" },
];

/** Fields of a task; the details of a task on the day line use the same. */
export const TASK_FIELDS = {
  name: named(31),
  kind: {
    label: "Kind",
    path: "kind",
    heads: ["type"],
    entry: choice([
      { value: "sampling", words: "Sampling" },
      { value: "deployment", words: "Deployment" },
      { value: "survey", words: "Survey" },
      { value: "upkeep", words: "Upkeep" },
    ]),
    width: 11,
    group: "Request",
    hint: "What sort of work it is; it chooses the hatching on the day line.",
  },
  must: {
    label: "Must-do",
    path: "must",
    heads: ["must", "mandatory"],
    entry: tick,
    width: 7,
    group: "Request",
  },
  worth: {
    label: "Worth",
    path: "worth",
    heads: ["value", "points"],
    entry: quantity("points"),
    unit: "points",
    width: 7,
    group: "Request",
  },
  likely: {
    label: "Likely",
    path: "duration.likelyS",
    heads: ["duration", "time needed"],
    entry: span,
    unit: "h:mm",
    width: 7,
    group: "Duration",
  },
  low: {
    label: "Low",
    path: "duration.lowS",
    heads: ["min", "shortest"],
    entry: span,
    unit: "h:mm",
    width: 7,
    group: "Duration",
  },
  high: {
    label: "High",
    path: "duration.highS",
    heads: ["max", "longest"],
    entry: span,
    unit: "h:mm",
    width: 7,
    group: "Duration",
  },
  mishap: {
    label: "Rare event",
    path: "mishap",
    entry: mishap,
    width: 26,
    group: "Duration",
    prune: true,
    hint: "What may go wrong on a simulated day, with its chance. The likely day, and every limit, has none of it.",
    read: (row: Task) => row.mishap && withoutPart(row.mishap, "remedy"),
    write: withMishap,
  },
  remedy: {
    label: "Made good by",
    path: "mishap.remedy.name",
    entry: text,
    width: 20,
    group: "If it is lost",
    hint: "What is done only if the rare event has happened. It takes no time on the planned day, counts in the odds and is printed under IF.",
    write: withRemedy,
    apart: withoutLoss,
  },
  remedyAfter: {
    label: "At the end of",
    path: "mishap.remedy.after",
    entry: one(SOURCES.tasks, "the task itself"),
    width: 17,
    group: "If it is lost",
    hint: "The task at whose end its crew does it; one with crew.",
    apart: withoutRemedy,
  },
  remedyLikely: {
    label: "Likely",
    path: "mishap.remedy.duration.likelyS",
    entry: span,
    unit: "h:mm",
    width: 7,
    group: "If it is lost",
    apart: withoutRemedy,
  },
  remedyLow: {
    label: "Low",
    path: "mishap.remedy.duration.lowS",
    entry: span,
    unit: "h:mm",
    width: 7,
    group: "If it is lost",
    apart: withoutRemedy,
  },
  remedyHigh: {
    label: "High",
    path: "mishap.remedy.duration.highS",
    entry: span,
    unit: "h:mm",
    width: 7,
    group: "If it is lost",
    apart: withoutRemedy,
  },
  remedySteps: {
    label: "Steps if so",
    path: "mishap.remedy.steps",
    entry: stepLines([]),
    width: 30,
    group: "If it is lost",
    apart: withoutRemedy,
  },
  place: {
    label: "Place",
    path: "place",
    heads: ["location", "station", "where"],
    entry: one(SOURCES.places, "none"),
    width: 17,
    group: "Where",
  },
  endPlace: {
    label: "Ends at",
    path: "endPlace",
    heads: ["end place"],
    entry: one(SOURCES.places, "same place"),
    width: 17,
    group: "Where",
  },
  walk: { label: "Walk in it", path: "walkM", entry: quantity("m"), unit: "m", width: 8, group: "Where" },
  count: {
    label: "Crew",
    path: "crew.count",
    heads: ["crew count", "crew size"],
    entry: quantity(""),
    width: 6,
    group: "Who",
  },
  named: {
    label: "By name",
    path: "crew.named",
    entry: some(SOURCES.crew, "anyone"),
    width: 11,
    group: "Who",
  },
  qualification: {
    label: "Qualification",
    path: "crew.qualification",
    entry: tag,
    width: 12,
    group: "Who",
  },
  effort: {
    label: "Effort",
    path: "effort",
    entry: effort,
    width: 12,
    group: "Who",
    hint: "How hard the work is: a category of measured rates, or watts from 50 to 1500.",
  },
  windows: { label: "Windows", path: "windows", entry: stretches, unit: "MET", width: 18, group: "When" },
  petFrom: {
    label: "Not before",
    path: "pet.startS",
    entry: span,
    unit: "h:mm",
    width: 9,
    group: "From egress (PET)",
    hint: "Counted from the egress of its EVA, so that a late egress moves it; empty for any time.",
    prune: true,
  },
  petTo: {
    label: "Over by",
    path: "pet.endS",
    entry: span,
    unit: "h:mm",
    width: 9,
    group: "From egress (PET)",
    hint: "Counted from the egress of its EVA; empty for any time after.",
    prune: true,
  },
  sun: {
    label: "Sun elevation",
    path: "sun",
    entry: sunRange,
    unit: "deg",
    width: 10,
    group: "When",
    hint: "Sun elevation from start to end; empty for any.",
  },
  light: {
    label: "Ground",
    path: "light",
    entry: one(() => LIGHTS, "any light"),
    width: 10,
    group: "When",
    hint: "Ground in the sun or in shadow from start to end, by the horizon of the height grid.",
  },
  sunAngle: {
    label: "Sun and heading",
    path: "sunAngle",
    entry: sunAngle,
    unit: "deg",
    width: 14,
    group: "When",
    hint: "Angle between where the crew faces and the sun: 0 ahead, 180 behind; empty for any.",
  },
  relay: { label: "Relay", path: "relay", entry: tick, width: 6, group: "When" },
  equipment: { label: "Equipment", path: "equipment", entry: uses, width: 22, group: "With" },
  massOut: {
    label: "Carried out",
    path: "massOutKg",
    entry: quantity("kg"),
    unit: "kg",
    width: 8,
    group: "With",
  },
  returns: {
    label: "Comes back",
    path: "returns",
    entry: perhaps,
    width: 11,
    group: "With",
    hint: "Whether what it carries out comes back to the lander.",
    apart: (row: Task) => (row.massOutKg > 0 ? null : "Carries nothing out."),
  },
  instrument: {
    label: "Instrument",
    path: "instrument",
    entry: instrument,
    width: 11,
    group: "With",
    hint: "Leaves an instrument at its end place, clear of the ascent blast. A deployment does unless it is switched off: then nothing checks it against the blast.",
    read: (row: Task) => (isSwitchedOff(row) ? SWITCHED_OFF : leavesInstrument(row)),
    write: (row: Task, value: unknown): Task => {
      const leaves = value === true;
      if (leaves === leavesInstrument(row)) return row;
      const rest = { ...row };
      delete rest.instrument;
      return leaves === leavesInstrument(rest) ? rest : { ...rest, instrument: leaves };
    },
  },
  container: {
    label: "Container",
    path: "sample",
    entry: one(SOURCES.containers, "nothing"),
    width: 15,
    group: "Brought back",
    hint: "The container that its sample goes into.",
    read: (row: Task) => row.sample?.container,
    write: (row: Task, value: unknown): Task => {
      const { sample, ...rest } = row;
      if (typeof value !== "string") return rest;
      return { ...rest, sample: { ...(sample ?? { massKg: 0, volumeL: 0 }), container: value } };
    },
    apart: (row: Task, plan) => (plan.containers.length === 0 && !row.sample ? unplaced : null),
  },
  sampleMass: {
    label: "Mass",
    path: "sample.massKg",
    entry: quantity("kg"),
    unit: "kg",
    width: 6,
    group: "Brought back",
    apart: withoutSample,
  },
  sampleVolume: {
    label: "Volume",
    path: "sample.volumeL",
    entry: quantity("L"),
    unit: "L",
    width: 6,
    group: "Brought back",
    apart: withoutSample,
  },
  bags: {
    label: "Bags",
    path: "sample.bags",
    heads: ["bag numbers", "sample bags"],
    entry: bags,
    width: 12,
    group: "Brought back",
    apart: withoutSample,
  },
  cautions: {
    label: "Cautions",
    path: "cautions",
    entry: cautionLines,
    width: 30,
    group: "Cuff checklist",
    hint: "They guard the whole task and stand before its first step. One that guards a single step is written there.",
  },
  steps: {
    label: "Steps",
    path: "steps",
    entry: stepLines([]),
    entryFor: (row: Task, plan) => stepLines(doersOf(plan, row)),
    width: 36,
    group: "Cuff checklist",
  },
  notes: {
    label: "Notes",
    path: "notes",
    entry: longText,
    width: 30,
    group: "Cuff checklist",
    hint: "Printed last on its cuff page, after the steps.",
  },
  pinStart: {
    label: "Start",
    path: "pin.startS",
    entry: moment,
    unit: "MET",
    width: 8,
    group: "Pinned",
    prune: true,
    hint: "Its start is held here.",
  },
  pinEva: {
    label: "EVA",
    path: "pin.eva",
    entry: one(SOURCES.evas, "free"),
    width: 9,
    group: "Pinned",
    prune: true,
    hint: "Only on this EVA.",
  },
  pinCrew: {
    label: "Crew",
    path: "pin.crew",
    entry: some(SOURCES.crew, "free"),
    width: 10,
    group: "Pinned",
    prune: true,
    hint: "Only by exactly these.",
    read: (row: Task) => row.pin?.crew ?? [],
    write: (row: Task, value: unknown): Task => {
      const crew = listOf(value);
      return crew.length === 0 ? unpinned(row, ["crew"]) : { ...row, pin: { ...row.pin, crew: [...crew] } };
    },
  },
  number: {
    label: "Number",
    path: "number",
    heads: ["no", "no.", "nr", "request", "request number", "item"],
    entry: text,
    width: 9,
    group: "Called",
    hint: "It is called by this everywhere, on screens, paper and files. Give the requester's own; nothing changes it but you.",
    read: (row: Task, plan) => taskNumber(plan, row.id),
    write: (row: Task, value: unknown, plan): Task => ({
      ...row,
      number:
        typeof value === "string" ? value.trim() : freshNumber(plan.tasks.filter(({ id }) => id !== row.id)),
    }),
  },
} satisfies Record<string, Field<Task>>;

export const taskTable = listTable<Task>({
  id: "tasks",
  title: "Tasks",
  intro: "All requests for work, placed or not. What does not fit the day stays on the bench.",
  one: "task",
  list: "tasks",
  kind: "task",
  prefix: "task",
  sorts: TASK_TEMPLATES.map((template) => ({
    name: template.name,
    says: template.says,
    part: (plan) => taskOf(template, plan),
  })),
  ...BY_NAME,
  numberOf: (row, plan) => taskNumber(plan, row.id),
  fields: Object.values(TASK_FIELDS),
  sets: [
    { name: "What", groups: ["Called", "Request", "Duration", "If it is lost"] },
    { name: "Who", groups: ["Who"] },
    { name: "Where", groups: ["Where"] },
    { name: "Carries", groups: ["With", "Brought back"] },
    { name: "When", groups: ["When", "Pinned"] },
    { name: "Paper", groups: ["Called", "Cuff checklist"] },
  ],
  lacks: [
    {
      words: "no low or high duration",
      is: ({ duration: { lowS, highS } }) => lowS === undefined || highS === undefined,
    },
    { words: "no steps", is: ({ steps }) => steps.length === 0 },
    { words: "no caution", is: (task) => task.crew.count > 0 && allCautions(task).length === 0 },
    {
      words: "a caution without class",
      is: (task) => allCautions(task).some((one) => one.class === undefined),
    },
    { words: "a sample of no mass", is: ({ sample }) => sample?.massKg === 0 },
    { words: "bags not said", is: ({ sample }) => sample !== undefined && sample.bags === undefined },
    {
      words: "not said whether it comes back",
      is: ({ massOutKg, returns }) => massOutKg > 0 && returns === undefined,
    },
  ],
  blank: (plan, id) => {
    const place = plan.site.places.find((one) => one.kind === "station") ?? plan.site.places[0];
    return {
      id,
      number: freshNumber(plan.tasks),
      name: `New task ${plan.tasks.length + 1}`,
      kind: "sampling",
      ...(place ? { place: place.id } : {}),
      ...NEW_TASK,
      duration: { likelyS: duration(900) },
      effort: "geology",
    };
  },
  // A second task at the same pinned time would only stand in the first one's way.
  copy: (row, id, plan) => ({
    ...unpinned(row, ["start", "eva", "crew"]),
    id,
    number: freshNumber(plan.tasks),
    name: `${row.name} (copy)`,
  }),
});

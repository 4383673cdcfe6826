import { freshNumber, type Task } from "../../../plan/index.ts";
import { unpinned } from "../../../session/index.ts";
import { doersOf, taskNumber } from "../../../words/index.ts";
import { choice, listOf, longText, quantity, text, tick } from "../entry.ts";
import { named } from "../listtable.ts";
import { one, some, SOURCES } from "../nameentry.ts";
import { cautionLines, stepLines } from "../stepentry.ts";
import type { Field } from "../table.ts";
import { moment } from "../timeentry.ts";
import { CARRIED } from "./carried.ts";
import { WHERE_WHO_WHEN } from "./doing.ts";
import { TIME_AND_LOSS } from "./loss.ts";

/** Fields of a task, in the order of their columns; the details of a task on the day line use the same. */
export const TASK_FIELDS = {
  name: { ...named(31), heads: ["title", "activity", "request"] },
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
  ...TIME_AND_LOSS,
  ...WHERE_WHO_WHEN,
  ...CARRIED,
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
    heads: ["no", "no.", "nr", "request number", "item", "request no", "request"],
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

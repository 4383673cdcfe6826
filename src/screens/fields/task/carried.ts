import { done } from "../../../kernel/index.ts";
import { isSwitchedOff, leavesInstrument, type Task } from "../../../plan/index.ts";
import { bags } from "../bagentry.ts";
import { type Entry, perhaps, quantity, tick } from "../entry.ts";
import { one, SOURCES, uses } from "../nameentry.ts";
import type { Field } from "../table.ts";

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

/** What a task is done with, what it leaves out there, and what it brings back. */
export const CARRIED = {
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
} satisfies Record<string, Field<Task>>;

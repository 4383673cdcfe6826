import { done } from "../../../kernel/index.ts";
import { isSwitchedOff, leavesInstrument, type Task, untoldBack } from "../../../plan/index.ts";
import { bags } from "../bagentry.ts";
import { type Entry, perhaps, quantity, tick } from "../entry.ts";
import { one, SOURCES, uses } from "../nameentry.ts";
import type { Field } from "../table.ts";

const withoutSample = (row: Task): string | null => {
  if (row.sample) return null;
  const what = untoldBack(row).mass ? "Not given what it brings back" : "Brings nothing back";
  return `${what}: choose a container first.`;
};

/** Chosen in place of a container; no id of the plan has brackets. */
const NOTHING = "(nothing)";

/** The container of a sample; of sampling nothing is a choice of its own beside what nobody has given. */
function into({ kind }: Pick<Task, "kind">): Entry {
  const isOpen = kind === "sampling";
  const box = one(SOURCES.containers, isOpen ? "not given" : "nothing");
  return {
    ...box,
    show: (value, plan) => (value === NOTHING ? "nothing" : box.show(value, plan)),
    choices: (plan) => {
      const [none, ...boxes] = box.choices?.(plan) ?? [];
      return [...(none ? [none] : []), ...(isOpen ? [{ value: NOTHING, words: "nothing" }] : []), ...boxes];
    },
  };
}

/** Of a sample 0 is no number that somebody has given. */
const amountOf = (amount: number | undefined): number | undefined => (amount === 0 ? undefined : amount);

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
    entry: into({ kind: "sampling" }),
    entryFor: into,
    width: 15,
    group: "Brought back",
    hint: "The container that its sample goes into. Nothing: it is said to bring nothing back, as a mass of 0 says too. Not given: what it brings back is in no sum.",
    read: (row: Task) =>
      row.sample?.container ?? (row.bringsNothing && row.kind === "sampling" ? NOTHING : undefined),
    write: (row: Task, value: unknown): Task => {
      const { sample, ...rest } = row;
      delete rest.bringsNothing;
      if (typeof value !== "string") return rest;
      if (value === NOTHING) return { ...rest, bringsNothing: true };
      return { ...rest, sample: { ...(sample ?? { massKg: 0, volumeL: 0 }), container: value } };
    },
    apart: (row: Task, plan) =>
      plan.containers.length === 0 && !row.sample && row.kind !== "sampling" ? unplaced : null,
  },
  sampleMass: {
    label: "Mass",
    path: "sample.massKg",
    entry: quantity("kg"),
    unit: "kg",
    width: 6,
    group: "Brought back",
    read: (row: Task) => (row.bringsNothing ? 0 : amountOf(row.sample?.massKg)),
    write: (row: Task, value: unknown): Task => {
      const { sample, ...rest } = row;
      if (!sample || typeof value !== "number") return row;
      return value === 0
        ? { ...rest, bringsNothing: true }
        : { ...rest, sample: { ...sample, massKg: value } };
    },
    apart: withoutSample,
  },
  sampleVolume: {
    label: "Volume",
    path: "sample.volumeL",
    entry: quantity("L"),
    unit: "L",
    width: 6,
    group: "Brought back",
    read: (row: Task) => amountOf(row.sample?.volumeL),
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

import { done, failed, isRecord, type Outcome } from "../kernel/index.ts";
import type { Fault } from "./fault.ts";
import { VERSION } from "./plan.ts";

type Fields = Readonly<Record<string, unknown>>;

/**
 * What each version of the format adds to the one before. An older document is brought up one step after the other, before
 * it is read: the schema knows only the newest.
 *
 * 1 to 2: a variant may say what it gives up of the plan; before, a file had no room for it.
 * 2 to 3: steps and cautions are records; before, they were lines of text. Nobody had said of what class a caution is, and it stays so.
 */
const STEPS: Readonly<Record<number, (data: Fields) => Fields>> = {
  1: (data) => ({ ...data, version: 2 }),
  2: (data) => ({ ...recordsForLines(data), version: 3 }),
};

/** A document as the newest version of the format has it, or why that is not possible; what is no document is left as it is. */
export function migrated(data: unknown): Outcome<unknown, readonly Fault[]> {
  if (!isRecord(data)) return done(data);
  const { version } = data;
  if (typeof version !== "number") return done(data);
  if (version > VERSION) {
    const message = `the file is of version ${version}, from a newer program; versions up to ${VERSION} can be read`;
    return failed([{ path: "version", message }]);
  }
  const step = STEPS[version];
  return step ? migrated(step(data)) : done(data);
}

/** Steps and cautions of tasks as records, in what variants change of the plan too. */
function recordsForLines(data: Fields): Fields {
  return {
    ...data,
    ...listIn(data, "tasks", (task) => taskOfRecords(task, {})),
    ...listIn(data, "variants", (variant) => {
      const { givesUp } = variant;
      if (!isRecord(givesUp)) return variant;
      return { ...variant, givesUp: { ...givesUp, ...listIn(givesUp, "patch", changeOfRecords) } };
    }),
  };
}

/** A patch goes past the schema: what it puts into a plan has no default left out. */
const IN_PATCH: Fields = { cautions: [] };

function taskOfRecords(task: Fields, step: Fields): Fields {
  return {
    ...task,
    ...("cautions" in task ? { cautions: recordsOf(task["cautions"], {}) } : {}),
    ...("steps" in task ? { steps: recordsOf(task["steps"], step) } : {}),
  };
}

/** A change of a task's lines, or of a whole task that is put in or taken out; any other as it is. */
function changeOfRecords(change: Fields): Fields {
  const { path } = change;
  if (!Array.isArray(path) || path[0] !== "tasks") return change;
  const [, , field] = path as readonly unknown[];
  const ofLines = path.length === 3 && (field === "cautions" || field === "steps");
  if (!ofLines && path.length !== 2) return change;
  const value = (old: unknown): unknown => {
    if (ofLines) return recordsOf(old, field === "steps" ? IN_PATCH : {});
    return isRecord(old) ? taskOfRecords(old, IN_PATCH) : old;
  };
  return {
    ...change,
    ...("from" in change ? { from: value(change["from"]) } : {}),
    ...("to" in change ? { to: value(change["to"]) } : {}),
  };
}

function recordsOf(lines: unknown, more: Fields): unknown {
  return Array.isArray(lines)
    ? lines.map((line: unknown) => (typeof line === "string" ? { text: line, ...more } : line))
    : lines;
}

/** The list at `key` with each of its records changed; nothing where there is none. What is no record stays for the schema to refuse. */
function listIn(record: Fields, key: string, change: (item: Fields) => unknown): Fields {
  const list = record[key];
  if (!Array.isArray(list)) return {};
  return { [key]: list.map((item: unknown) => (isRecord(item) ? change(item) : item)) };
}

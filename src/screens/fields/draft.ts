import { done, failed, type Outcome } from "../../kernel/index.ts";
import type { Fault, Plan } from "../../plan/index.ts";
import type { Session } from "../../session/index.ts";
import { clock } from "../../words/index.ts";
import type { Cell } from "./table.ts";

/** What is being written in a cell: a value, or in words why it is none that the plan can take. */
export function readDraft(
  session: Pick<Session, "faultsOf">,
  plan: Plan,
  cell: Cell,
  draft: string,
): Outcome<unknown, string> {
  // What stands there already is sound, whatever it looks like.
  if (isThere(plan, cell, draft)) return done(cell.value);
  const read = cell.entry.read(draft, plan, cell.guide);
  if (!read.ok) return read;
  const faults = session.faultsOf(cell.put(read.value));
  return faults.length === 0 ? read : failed(faultWords(faults, cell.path));
}

/** Puts a draft into the plan as one step. The same draft leaves no mark. */
export function putDraft(session: Session, plan: Plan, cell: Cell, draft: string): Outcome<unknown, string> {
  const read = readDraft(session, plan, cell, draft);
  if (!read.ok || isThere(plan, cell, draft)) return read;
  const put = session.edit(cell.step, cell.put(read.value));
  return put.ok ? read : failed(faultWords(put.error, cell.path));
}

/**
 * Puts several drafts into the plan as one step, where it takes them together: a begin and its end, each of which it may refuse without
 * the other. True when it did.
 */
export function putTogether(
  session: Session,
  plan: Plan,
  drafts: readonly { readonly cell: Cell; readonly draft: string }[],
): boolean {
  const values = drafts.map(({ cell, draft }) => ({ cell, read: cell.entry.read(draft, plan, cell.guide) }));
  const sound = values.flatMap(({ cell, read }) => (read.ok ? [{ cell, value: read.value }] : []));
  const [first] = sound;
  if (!first || sound.length < values.length) return false;
  const change = (now: Plan): Partial<Plan> => {
    let next = now;
    const parts: Partial<Plan> = {};
    for (const { cell, value } of sound) {
      const part = cell.put(value)(next);
      Object.assign(parts, part);
      next = { ...next, ...part };
    }
    return parts;
  };
  return session.faultsOf(change).length === 0 && session.edit(first.cell.step, change).ok;
}

/** True when the draft is what stands there, in every cell that the cell stands for. What nobody has given is given by writing it. */
function isThere(plan: Plan, cell: Cell, draft: string): boolean {
  if (cell.toGive) return draft.trim() === "";
  return cell.mixed !== true && draft === cell.entry.draft(cell.value, plan);
}

/** Where nobody has given a value: what the plan goes on with until then, or without. */
export function untilGiven({ shown, unit, unknown }: Cell): string {
  if (unknown !== undefined) return `until then ${unknown}`;
  return `until then ${shown}${unit === "" || unit === "h:mm" ? "" : ` ${unit}`}`;
}

/** What the editor of a cell begins with; nothing where nobody has given a value. */
export function firstDraft(cell: Cell, plan: Plan): string {
  return cell.toGive ? "" : cell.entry.draft(cell.value, plan);
}

/** The fault that says most about the field at `path`, as a sentence. */
function faultWords(faults: readonly Fault[], path: string): string {
  const near = faults.find((fault) => isWithin(fault.path, path) || isWithin(path, fault.path));
  if (near) return sentence(near.message);
  const first = faults[0];
  return first ? sentence(`${first.message} (at ${first.path})`) : "The plan cannot take it.";
}

function isWithin(inner: string, outer: string): boolean {
  return inner === outer || inner.startsWith(`${outer}.`);
}

/** Words with a capital and a full stop, seconds in them as hours and minutes. */
export function sentence(words: string): string {
  const timed = words.replace(/(-?\d+) s\b/g, (all, seconds: string) =>
    Math.abs(Number(seconds)) < 60 ? all : clock(Number(seconds)),
  );
  const capital = timed.charAt(0).toUpperCase() + timed.slice(1);
  return /[.!?]$/.test(capital) ? capital : `${capital}.`;
}

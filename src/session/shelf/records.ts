import type { Picture } from "./picture.ts";

/** What lies in the browser's store, and the port to it. */

/** A plan as it lies in the store. */
export interface StoredPlan {
  /** The plan as a file's text. */
  readonly text: string;
  /** The steps that can be taken back and done again, as `History`; missing in older records. */
  readonly history?: unknown;
  /** In records from before format 2: what variants give up of the plan, which the text had no room for. */
  readonly givenUp?: unknown;
  readonly savedAtMs: number;
  /** Which window wrote it. */
  readonly writer: string;
}

/** What a list shows of a plan on the shelf, so that it need not be read for that. */
export interface Card {
  /** The plan's place on the shelf. */
  readonly slot: string;
  readonly title: string;
  readonly savedAtMs: number;
  /** Size of its text, bytes. */
  readonly bytes: number;
  readonly tasks: number;
  readonly placed: number;
  /** null where the plan has not been looked into, as in a record from before there was a shelf. */
  readonly picture: Picture | null;
  /** When it was put into the bin; null where it was not. */
  readonly binnedAtMs: number | null;
}

/** What a state to go back to was kept for. left: what a window had not saved when another took the plan over. */
export type StateKind = "opened" | "hour" | "pack" | "merge" | "sent" | "left" | "revision";

/** A state to go back to, without its plan. */
export interface StateMark {
  readonly slot: string;
  readonly kind: StateKind;
  readonly atMs: number;
  /** Of a revision: what its author calls it, says of it, and is called. */
  readonly name: string;
  readonly note: string;
  readonly author: string;
  /** Size of the plan's text, bytes. */
  readonly bytes: number;
}

/** Such a state with its place in the store. */
export interface KeptState extends StateMark {
  readonly key: number;
}

/** A record that could not be used, kept as it was found. */
export interface Quarantined {
  readonly found: unknown;
  readonly reason: string;
  readonly atMs: number;
}

/** Such a record with its place in the store. */
export interface QuarantineRecord extends Quarantined {
  readonly key: number;
}

/** Where a rehearsal's clock stands after so many calls. */
export interface RehearsalClock {
  readonly calls: number;
  readonly nowS: number;
}

interface KeptRehearsal {
  readonly text: string;
  readonly clock: RehearsalClock | null;
}

/** The port to the store. Every promise rejects with an Error when the store cannot be used. */
export interface Archive {
  /** The slot that was open last in whatever window; null where none was. */
  lastOpen(): Promise<string | null>;
  setLastOpen(slot: string): Promise<void>;
  /** The cards of all plans, those in the bin too. */
  cards(): Promise<readonly Card[]>;
  /** A plan's record as found, whatever it is; undefined when there is none. */
  readPlan(slot: string): Promise<unknown>;
  /**
   * Puts a plan's record and card, all or nothing. A record written by neither this writer nor `expected` is set aside
   * first, in the same step; the answer says whether that happened. Where this writer itself is expected, nobody else can have
   * written, and the record is not looked at.
   */
  writePlan(card: Card, record: StoredPlan, expected: string | null): Promise<"written" | "other set aside">;
  /** Puts a card on its own. */
  writeCard(card: Card): Promise<void>;
  /** Takes a plan off the shelf for good, with all its states. */
  dropPlan(slot: string): Promise<void>;
  /** Moves a plan's record to those set aside, in one step; its states stay. */
  quarantinePlan(slot: string, reason: string, atMs: number): Promise<void>;
  /** The states of a plan, the newest first. */
  states(slot: string): Promise<readonly KeptState[]>;
  /** A state's plan as a file's text as found; undefined where there is none. */
  readState(key: number): Promise<unknown>;
  /** Keeps a state; those of the same plan that there is no room for any more go, as `beyondRoom` says. */
  addState(state: StateMark, text: string): Promise<void>;
  /** The rehearsal under way; null where there is none. */
  readRehearsal(): Promise<KeptRehearsal | null>;
  /** Puts the rehearsal under way as a file's text, or takes it out. */
  writeRehearsal(text: string | null): Promise<void>;
  /** Puts its clock alone, which runs on between calls. */
  writeClock(clock: RehearsalClock): Promise<void>;
  /** The records set aside, oldest first. */
  readQuarantine(): Promise<readonly QuarantineRecord[]>;
  /** Puts a record among those set aside, at its own place. */
  putQuarantined(record: QuarantineRecord): Promise<void>;
  /** Takes a record out of those set aside; nothing happens when it is not there. */
  deleteQuarantined(key: number): Promise<void>;
}

/** True when a found record has the form this program writes; its text may still be no plan. */
export function isStoredPlan(found: unknown): found is StoredPlan {
  if (typeof found !== "object" || found === null) return false;
  const record = found as Partial<Record<keyof StoredPlan, unknown>>;
  return (
    typeof record.text === "string" &&
    typeof record.savedAtMs === "number" &&
    typeof record.writer === "string"
  );
}

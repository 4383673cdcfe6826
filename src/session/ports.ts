import type { Verdict } from "../answers/index.ts";
import type { Engine } from "../engine/calls.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { Archive } from "./shelf/records.ts";
import type { FileHandles } from "./shelf/filehandle.ts";
import type { Windows } from "./shelf/windows.ts";

/** What the session needs from outside; all of it is injected. */

/** Time as the session sees it. */
export interface Clock {
  /** Milliseconds since 1970, UTC. */
  nowMs(): number;
  /** Runs `run` once after `ms` milliseconds; the answer calls it off. */
  after(ms: number, run: () => void): () => void;
}

/** The judge, bound to a plan first so that one plan's many schedules are judged fast. */
export type JudgeFor = (plan: Plan) => (schedule: Schedule) => Verdict;

export interface SessionPorts {
  readonly engine: Engine;
  /** Another one for what is worked out in spare time, so that it holds nothing up; the same where left out. */
  readonly spare?: () => Engine;
  readonly judgeFor: JudgeFor;
  /**
   * Has what is dear to judge in a plan worked out before it is opened, so that the page does not stand still for it. False where
   * that was broken off, and the plan is not to be opened. Left out, the plan is laid at once.
   */
  readonly makeReady?: (plan: Plan) => Promise<boolean>;
  readonly archive: Archive;
  /** The other windows of this browser; left out where there are none. */
  readonly windows?: Windows;
  readonly clock: Clock;
  /** Where this browser keeps which file a plan is kept to; left out where it cannot write into files. */
  readonly handles?: FileHandles;
  /** Where this browser keeps the name of who works in it; left out where it keeps none. */
  readonly author?: { get(): string; set(name: string): void };
  /** A fresh name made of lower-case letters and digits. */
  readonly newId: () => string;
  /** The text of a ready plan ("demo", "small", "large"); rejects when it cannot be had. */
  readonly readyText: (name: string) => Promise<string>;
}

/** The clock of the machine. */
export const systemClock: Clock = {
  nowMs: () => Date.now(),
  after(ms, run) {
    const timer = setTimeout(run, ms);
    return () => clearTimeout(timer);
  },
};

/** Fresh names from the machine's random source. */
export function systemId(): string {
  return crypto.randomUUID().replaceAll("-", "").slice(0, 12);
}

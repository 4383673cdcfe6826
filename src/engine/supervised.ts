import {
  type SendCall,
  type CallName,
  type Calls,
  callsBy,
  type Engine,
  EngineError,
  type Hearing,
} from "./calls.ts";
import type { Plan } from "../plan/index.ts";
import { connect } from "./client.ts";
import type { Port, ToWorker } from "./messages.ts";

/** A worker as its supervisor sees it. */
export interface Worked {
  readonly port: Port<ToWorker>;
  end(): void;
  /** Tells of an error that the worker did not catch. */
  onError(tell: (message: string) => void): void;
}

/** Runs `run` once after `ms` milliseconds; the answer calls it off. */
export type After = (ms: number, run: () => void) => () => void;

/**
 * How much slower than undisturbed work goes on this machine just now, at least 1: measured by a worker beside the others, and told when
 * it is known.
 */
export type Pace = (tell: (slowness: number) => void) => void;

/** How often a worker with something to do is asked whether it still hears, ms. */
const BEAT_MS = 1000;
/** So many beats in a row without a word from it, and it is taken for dead. On a machine that is n times slower a beat counts 1/n. */
const SILENT_BEATS = 4;
/** So many beats in which it only said from inside that it works, without coming to an end or letting anything in. */
const BUSY_BEATS = 120;
/** As long as it has not said a word yet: its code may have to be fetched. */
const UNBORN_BEATS = 20;
/** A pace that is not told for so many beats is not waited for any longer. */
const PATIENT_BEATS = 30;
/** Workers that die one after the other without an answer in between are given up after so many. */
const MOST_DEATHS = 3;

/**
 * An engine whose worker may throw, die without a word, or never answer again: that is told, and the worker ended and started anew. What
 * it had begun is rejected as failed; what it had not come to goes to the new one. Beats are counted and not seconds, so that a machine
 * that slept, or a page that was held up, is not taken for a dead worker; and they count by the pace of the machine, so that a worker that
 * only gets no turn is not either. Work that is done in one go says from inside that it goes on (kernel's `pulse`).
 */
export function supervised(
  start: () => Worked,
  after: After,
  pace: Pace,
  tell: (words: string) => void,
): Engine {
  let working: Watched | null = null;
  let deaths = 0;
  let closed = false;

  const renewed = (): Watched => {
    const made = watch(start(), after, pace, (why) => {
      if (working !== made) return;
      working = null;
      deaths += 1;
      const off = deaths >= MOST_DEATHS;
      tell(
        `What packs and checks in the background ${why}. ` +
          (off
            ? "It has failed too often and stays off until the page is loaded anew; the plan is as it was."
            : "It was started anew; the plan is as it was."),
      );
    });
    return made;
  };

  const send = async <Name extends CallName>(
    name: Name,
    plan: Plan,
    given: Calls[Name]["given"],
    hearing?: Hearing<Name>,
  ): Promise<Calls[Name]["answer"]> => {
    for (;;) {
      if (closed) throw new EngineError("closed", "the engine was closed");
      if (deaths >= MOST_DEATHS) throw new EngineError("failed", "it has failed too often");
      working ??= renewed();
      try {
        const answer = await working.send(name, plan, given, hearing);
        deaths = 0;
        return answer;
      } catch (error) {
        if (!(error instanceof EngineError) || error.reason !== "unheard") throw error;
      }
    }
  };

  return {
    ...callsBy(send),
    close() {
      closed = true;
      working?.close();
      working = null;
    },
  };
}

interface Watched {
  readonly send: SendCall;
  close(): void;
}

/** A worker with an ear on it while it has something to do; `died` is told once, when it has settled all its calls. */
function watch(worked: Worked, after: After, pace: Pace, died: (why: string) => void): Watched {
  let silent = 0;
  let busy = 0;
  let spoke = false;
  let over = false;
  let stop: (() => void) | null = null;
  let slowness = 1;
  let measuring = 0;

  const engine = connect(
    worked.port,
    () => worked.end(),
    (type) => {
      if (type !== "pulse") busy = 0;
      silent = 0;
      slowness = 1;
      spoke = true;
    },
  );
  const fall = (why: string): void => {
    if (over) return;
    over = true;
    stop?.();
    // Before the calls are settled: what is asked then is asked of a new one.
    died(why);
    engine.fail(`the worker ${why}`);
  };
  worked.onError((message) => fall(`failed (${message})`));

  const beat = (): void => {
    stop = null;
    if (engine.waiting() === 0) return;
    if (measuring > 0 && measuring < PATIENT_BEATS) measuring += 1;
    else silent += 1 / slowness;
    busy += 1;
    if (busy >= BUSY_BEATS * Math.max(1, slowness)) return fall("did not come to an end");
    if (silent >= (spoke ? SILENT_BEATS : UNBORN_BEATS)) return fall("did not answer any more");
    // One beat of silence is nothing yet.
    if (silent > 1 && measuring === 0) {
      measuring = 1;
      pace((now) => {
        slowness = now;
        measuring = 0;
      });
    }
    engine.ping();
    stop = after(BEAT_MS, beat);
  };

  return {
    send(name, plan, given, hearing) {
      if (!stop) {
        silent = 0;
        stop = after(BEAT_MS, beat);
      }
      return engine[name](plan, given as never, hearing as never);
    },
    close() {
      over = true;
      stop?.();
      engine.close();
    },
  };
}

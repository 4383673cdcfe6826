import type { Engine } from "./calls.ts";
import { type Pace, type Worked, supervised } from "./supervised.ts";
import { inTeam } from "./team.ts";

/** Engines that pack together at most; more find little more. */
const MOST = 4;

/** Tells that a worker had to be started anew, and what that means. */
export type Tell = (words: string) => void;

/** The engine in a worker of its own, and more of them for packing where the machine has cores to spare. */
export function startEngine(tell: Tell): Engine {
  // One core stays with the screen.
  const spare = Math.min(MOST, navigator.hardwareConcurrency - 1) - 1;
  return inTeam(watched(tell), () => Array.from({ length: Math.max(0, spare) }, () => watched(tell)));
}

/** An engine in a worker of its own for what is worked out in spare time; it is started when it is asked for the first time. */
export function spareEngine(tell: Tell): () => Engine {
  let started: Engine | null = null;
  return () => (started ??= watched(tell));
}

function watched(tell: Tell): Engine {
  const after = (ms: number, run: () => void): (() => void) => {
    const timer = setTimeout(run, ms);
    return () => clearTimeout(timer);
  };
  return supervised(startWorker, after, pace, tell);
}

let metronome: Worker | null = null;

/** The pace of this machine. Where it cannot be measured, nothing is said of it to anybody's loss but time. */
const pace: Pace = (tell) => {
  metronome ??= new Worker(new URL("./metronomeworker.ts", import.meta.url), { type: "module" });
  metronome.addEventListener("message", ({ data }) => tell(Number(data)), { once: true });
  metronome.postMessage(null);
};

function startWorker(): Worked {
  const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
  return {
    port: worker as never,
    end: () => worker.terminate(),
    onError(failed) {
      worker.onerror = (event) => failed(event.message || "could not start");
      worker.onmessageerror = () => failed("sent what cannot be read");
    },
  };
}

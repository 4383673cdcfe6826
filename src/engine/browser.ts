import { connect } from "./client.ts";
import type { Engine } from "./calls.ts";
import { inTeam } from "./team.ts";

/** Engines that pack together at most; more find little more. */
const MOST = 4;

/** The engine in a worker of its own, and more of them for packing where the machine has cores to spare. */
export function startEngine(): Engine {
  // One core stays with the screen.
  const spare = Math.min(MOST, navigator.hardwareConcurrency - 1) - 1;
  return inTeam(startWorker(), () => Array.from({ length: Math.max(0, spare) }, startWorker));
}

/** An engine in a worker of its own for what is worked out in spare time; it is started when it is asked for the first time. */
export function spareEngine(): () => Engine {
  let started: Engine | null = null;
  return () => (started ??= startWorker());
}

function startWorker(): Engine {
  const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
  const engine = connect(worker as never, () => worker.terminate());
  worker.onerror = (event) => engine.fail(event.message || "the engine could not start");
  return engine;
}

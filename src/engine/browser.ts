import { connect } from "./client.ts";
import type { Engine } from "./protocol.ts";

/** The engine in a worker of its own. */
export function startEngine(): Engine {
  const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
  const engine = connect(worker as never, () => worker.terminate());
  worker.onerror = (event) => engine.fail(event.message || "the engine could not start");
  return engine;
}

import { Worker } from "node:worker_threads";
import type { Engine } from "../engine/calls.ts";
import { connect } from "../engine/client.ts";
import type { Port, ToWorker } from "../engine/messages.ts";
import { inTeam } from "../engine/team.ts";

/** So many engines that pack together, each in a thread of its own. Close it, or the process stays. */
export function packThreads(count: number): Engine {
  return inTeam(thread(), () => Array.from({ length: count - 1 }, thread));
}

// A thread does not take over how this one reads TypeScript, and has to be told before it reads any.
const START = `import(${JSON.stringify(import.meta.resolve("tsx/esm/api"))}).then(({ register }) => {
  register();
  return import(${JSON.stringify(new URL("./packthread.ts", import.meta.url).href)});
});`;

function thread(): Engine {
  const worker = new Worker(START, { eval: true });
  const port: Port<ToWorker> = { postMessage: (message) => worker.postMessage(message), onmessage: null };
  const engine = connect(port, () => void worker.terminate());
  worker.on("message", (data) => port.onmessage?.({ data: data as never }));
  worker.on("error", ({ message }) => engine.fail(message));
  return engine;
}

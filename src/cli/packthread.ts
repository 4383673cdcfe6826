import { parentPort } from "node:worker_threads";
import { serve } from "../engine/server.ts";
import type { FromWorker, Port } from "../engine/messages.ts";
import { core } from "./core.ts";

/** The core at the far end of a thread. */
const parent = parentPort;
if (!parent) throw new Error("packthread.ts runs in a thread that packthreads.ts starts");
const port: Port<FromWorker> = { postMessage: (message) => parent.postMessage(message), onmessage: null };
parent.on("message", (data) => port.onmessage?.({ data: data as never }));
serve(port, core(), () => new Promise((resolve) => setImmediate(resolve)));

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Worker } from "node:worker_threads";

/**
 * The constraint solver chuffed (Chu 2011, lazy clause generation) behind MiniZinc, as the package `minizinc` ships it for
 * browsers: its worker script runs in a thread that offers what a browser's worker would, with the machine code compiled
 * once for all threads. The solver keeps state from one model to the next, so each model has a thread of its own.
 */

const BROWSER_SCOPE = `
const { parentPort, workerData } = require("node:worker_threads");
globalThis.postMessage = (message) => parentPort.postMessage(message);
globalThis.addEventListener = (_, hear) => parentPort.on("message", (data) => hear({ data }));
const { instantiate } = WebAssembly;
WebAssembly.instantiate = async (_, imports) => ({ instance: await instantiate(workerData, imports) });
`;

type FromThread =
  | { readonly type: "ready" }
  | { readonly type: "solution"; readonly output: { readonly dzn?: string } }
  | { readonly type: "status"; readonly status: string }
  | { readonly type: "error"; readonly message: string }
  | { readonly type: "exit"; readonly code: number; readonly message?: string };

/** The solver, loaded once. */
export class Chuffed {
  private readonly script: string;
  private readonly code: WebAssembly.Module;

  constructor() {
    this.script = BROWSER_SCOPE + readFileSync(shipped("minizinc-worker.js"), "utf8");
    this.code = new WebAssembly.Module(readFileSync(shipped("minizinc.wasm")));
  }

  /**
   * The proved best answer of a FlatZinc model, its named variables by name (bits as 0 and 1); rejects when the solver
   * finds a fault, no answer, or no proof within `limitMs`.
   */
  best(model: string, limitMs: number): Promise<ReadonlyMap<string, number>> {
    const worker = new Worker(this.script, { eval: true, workerData: this.code });
    const answer = new Promise<ReadonlyMap<string, number>>((resolve, reject) => {
      let output = "";
      let status = "UNKNOWN";
      const faults: string[] = [];
      worker.once("error", reject);
      worker.on("message", (message: FromThread) => {
        if (message.type === "ready") worker.postMessage(order(model, limitMs));
        else if (message.type === "solution") output = message.output.dzn ?? "";
        else if (message.type === "error") faults.push(message.message);
        else if (message.type === "status") ({ status } = message);
        else if (message.type === "exit") {
          if (message.code !== 0) faults.push(message.message ?? `exit ${message.code}`);
          if (faults.length === 0 && status === "OPTIMAL_SOLUTION") resolve(valuesIn(output));
          else reject(new Error(faults.join("; ") || status));
        }
      });
      worker.postMessage({ wasmURL: shipped("minizinc.wasm"), dataURL: shipped("minizinc.data") });
    });
    return answer.finally(() => worker.terminate());
  }
}

function shipped(name: string): string {
  return createRequire(import.meta.url).resolve(`minizinc/${name}`);
}

function order(model: string, limitMs: number): object {
  return {
    jsonStream: true,
    files: { "model.fzn": model },
    args: ["--solver", "org.minizinc.chuffed", "-f", "--time-limit", `${limitMs}`, "model.fzn"],
  };
}

/** Lines such as `x = 12;` and `b = true;`. */
function valuesIn(output: string): Map<string, number> {
  return new Map(
    [...output.matchAll(/^(\w+) = (\S+);$/gm)].map(([, name, value]) => [
      name!,
      value === "true" ? 1 : value === "false" ? 0 : Number(value),
    ]),
  );
}

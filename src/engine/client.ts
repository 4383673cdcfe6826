import type { Plan } from "../plan/index.ts";
import type { CallName, Calls, FromWorker, Port, Progress, ToWorker } from "./messages.ts";
import { type Engine, EngineError, type SiteAsk } from "./protocol.ts";

interface Pending {
  readonly resolve: (answer: never) => void;
  readonly reject: (error: EngineError) => void;
  readonly report?: ((progress: Progress) => void) | undefined;
}

/**
 * The engine at the other end of `port`. `end` ends what is behind the port. Every call settles: with its answer, or
 * rejected with EngineError when it is cancelled (at once, whatever the worker does), fails, or the engine closes.
 */
export function connect(port: Port<ToWorker>, end: () => void): Engine & { fail(message: string): void } {
  const pending = new Map<number, Pending>();
  let lastId = 0;
  let sentPlan: Plan | null = null;
  let closed: EngineError | null = null;

  port.onmessage = (event) => {
    const message = event.data as FromWorker;
    const call = pending.get(message.id);
    // An answer to a cancelled call finds nobody waiting.
    if (!call) return;
    if (message.type === "report") {
      call.report?.(message.progress);
      return;
    }
    pending.delete(message.id);
    if (message.type === "answer") call.resolve(message.answer as never);
    else call.reject(new EngineError("failed", message.message));
  };

  function call<Name extends CallName>(
    name: Name,
    plan: Plan,
    args: Calls[Name]["args"],
    signal?: AbortSignal,
    report?: (progress: never) => void,
  ): Promise<Calls[Name]["answer"]> {
    if (closed) return Promise.reject(closed);
    if (signal?.aborted) return Promise.reject(new EngineError("cancelled", `${name} was cancelled`));
    lastId += 1;
    const id = lastId;
    return new Promise((resolve, reject) => {
      const cancel = (): void => {
        pending.delete(id);
        port.postMessage({ type: "cancel", id });
        reject(new EngineError("cancelled", `${name} was cancelled`));
      };
      signal?.addEventListener("abort", cancel, { once: true });
      const settled = (): void => signal?.removeEventListener("abort", cancel);
      pending.set(id, {
        resolve: (answer) => {
          settled();
          resolve(answer);
        },
        reject: (error) => {
          settled();
          reject(error);
        },
        // A call hears its own kind of progress only.
        report: report as ((progress: Progress) => void) | undefined,
      });
      if (plan !== sentPlan) {
        sentPlan = plan;
        port.postMessage({ type: "plan", plan });
      }
      port.postMessage({ type: "call", id, name, args } as ToWorker);
    });
  }

  function closeWith(error: EngineError): void {
    if (closed) return;
    closed = error;
    for (const waiting of [...pending.values()]) waiting.reject(error);
    pending.clear();
    end();
  }

  return {
    check: (plan, schedule, signal) => call("check", plan, { schedule }, signal),
    pack: (plan, options, report, signal) => call("pack", plan, { options }, signal, report),
    mend: (plan, schedule, options, signal) => call("mend", plan, { schedule, options }, signal),
    gridded: (plan, schedule, signal) => call("gridded", plan, { schedule }, signal),
    fitBands: (plan, schedule, task, signal) => call("fitBands", plan, { schedule, task }, signal),
    benchReasons: (plan, schedule, signal) => call("benchReasons", plan, { schedule }, signal),
    curve: (plan, options, report, signal) => call("curve", plan, { options }, signal, report),
    odds: (plan, schedule, options, report, signal) =>
      call("odds", plan, { schedule, options }, signal, report),
    shed: (plan, schedule, options, report, signal) =>
      call("shed", plan, { schedule, options }, signal, report),
    why: (plan, schedule, task, options, report, signal) =>
      call("why", plan, { schedule, task, options }, signal, report),
    fromWhat: (plan, schedule, ask, signal) => call("fromWhat", plan, { schedule, ask }, signal),
    site: (plan, schedule, what, args, signal) =>
      // The answer is of the kind that was asked for.
      call("site", plan, { schedule, ask: { what, args } as SiteAsk }, signal) as Promise<never>,
    close: () => closeWith(new EngineError("closed", "the engine was closed")),
    fail: (message) => closeWith(new EngineError("failed", message)),
  };
}

import { patchBetween, type Plan, type Schedule } from "../plan/index.ts";
import { type CallName, type Calls, callsBy, type Engine, EngineError, type Hearing } from "./calls.ts";
import type { CallMessage, FromWorker, Port, ToWorker } from "./messages.ts";

interface Pending {
  /** The worker has come to it. */
  begun: boolean;
  reject(error: EngineError): void;
  /** Takes what the worker says of it; where that has lost the plan, the call is sent again behind the whole of it. */
  hear(message: Exclude<FromWorker, { readonly type: "pong" | "pulse" }>): void;
}

/** A patch of more changes than this is most of another plan, which is then sent as a whole. */
const MOST_CHANGES = 400;

/** An engine over a wire, for whoever watches over the worker behind it. */
export interface Connected extends Engine {
  /** Closes it: what the worker had begun is rejected as failed, what it had not come to as unheard. */
  fail(message: string): void;
  /** Asks the worker whether it still hears; its answer is something heard. */
  ping(): void;
  /** How many calls have no answer yet. */
  waiting(): number;
}

/**
 * The engine at the other end of `port`. `end` ends what is behind the port, `heard` is told of every word from there. Every call
 * settles: with its answer, or rejected with EngineError when it is cancelled (at once, whatever the worker does), fails, or the
 * engine closes.
 */
export function connect(
  port: Port<ToWorker>,
  end: () => void,
  heard: (type: FromWorker["type"]) => void = () => undefined,
): Connected {
  const pending = new Map<number, Pending>();
  let closed: EngineError | null = null;

  port.onmessage = (event) => {
    const message = event.data as FromWorker;
    heard(message.type);
    if (message.type === "pong" || message.type === "pulse") return;
    // An answer to a cancelled call finds nobody waiting.
    pending.get(message.id)?.hear(message);
  };

  const send = askerOf(port, pending, () => closed);

  function closeWith(begun: EngineError, unheard = begun): void {
    if (closed) return;
    closed = unheard;
    for (const waiting of [...pending.values()]) waiting.reject(waiting.begun ? begun : unheard);
    end();
  }

  return {
    ...callsBy(send),
    close: () => closeWith(new EngineError("closed", "the engine was closed")),
    fail: (message) => closeWith(new EngineError("failed", message), new EngineError("unheard", message)),
    ping: () => port.postMessage({ type: "ping" }),
    waiting: () => pending.size,
  };
}

/** Sends calls, and settles each once: what waits for an answer stands in `pending`. Nothing is sent once it is `closed`. */
function askerOf(port: Port<ToWorker>, pending: Map<number, Pending>, closed: () => EngineError | null) {
  let lastId = 0;
  const plans = planSender(port);

  return <Name extends CallName>(
    name: Name,
    plan: Plan,
    given: Calls[Name]["given"],
    { report, signal, enough, meet }: Hearing<Name> = {},
  ): Promise<Calls[Name]["answer"]> => {
    const over = closed();
    if (over) return Promise.reject(over);
    const cancelled = (): EngineError => new EngineError("cancelled", `${name} was cancelled`);
    if (signal?.aborted) return Promise.reject(cancelled());
    lastId += 1;
    const id = lastId;
    const post = (version: number): void =>
      port.postMessage({ type: "call", id, version, name, given, meets: meet !== undefined } as CallMessage);
    const met = (schedule: Schedule | null): void => port.postMessage({ type: "met", id, schedule });
    const answered = new Promise<Calls[Name]["answer"]>((resolve, reject) => {
      const cancel = (): void => {
        port.postMessage({ type: "cancel", id });
        settle(() => reject(cancelled()));
      };
      const suffice = (): void => port.postMessage({ type: "enough", id });
      const settle = (how: () => void): void => {
        pending.delete(id);
        signal?.removeEventListener("abort", cancel);
        enough?.removeEventListener("abort", suffice);
        how();
      };
      signal?.addEventListener("abort", cancel, { once: true });
      enough?.addEventListener("abort", suffice, { once: true });
      const rejected = (error: EngineError): void => settle(() => reject(error));
      const waiting: Pending = {
        begun: false,
        reject: rejected,
        hear(message) {
          if (message.type === "begun") waiting.begun = true;
          else if (message.type === "lost") post(plans.whole(plan));
          // What comes back to a call's number is of that call.
          else if (message.type === "report") report?.(message.progress);
          else if (message.type === "meet") meet?.(message.handed).then(met, () => met(null));
          else if (message.type === "answer") settle(() => resolve(message.answer));
          else rejected(new EngineError("failed", message.message));
        },
      };
      pending.set(id, waiting);
    });
    try {
      post(plans.send(plan));
      if (enough?.aborted) port.postMessage({ type: "enough", id });
    } catch (error) {
      // What cannot be copied does not go over the wire.
      const words = error instanceof Error ? error.message : "it cannot be sent";
      pending.get(id)?.reject(new EngineError("failed", words));
    }
    return answered;
  };
}

/** Sees to it that the far side has a plan: as a whole, or as what changed since the last. The answers are its version there. */
function planSender(port: Port<ToWorker>): {
  readonly send: (plan: Plan) => number;
  readonly whole: (plan: Plan) => number;
} {
  let sent: { readonly plan: Plan; readonly version: number } | null = null;
  const whole = (plan: Plan): number => {
    const version = (sent?.version ?? 0) + 1;
    port.postMessage({ type: "plan", plan, version });
    sent = { plan, version };
    return version;
  };
  const send = (plan: Plan): number => {
    if (!sent) return whole(plan);
    const from = sent.version;
    if (plan === sent.plan) return from;
    const patch = patchBetween(sent.plan, plan);
    if (patch.length > MOST_CHANGES) return whole(plan);
    port.postMessage({ type: "patch", patch, from, version: from + 1 });
    sent = { plan, version: from + 1 };
    return from + 1;
  };
  return { send, whole };
}

import type { HandedDay } from "../answers/index.ts";
import { applyPatch, type Plan, type Schedule } from "../plan/index.ts";
import type { CallName, Calls, Hearing } from "./calls.ts";
import type { Core } from "./core.ts";
import type { YieldToHost } from "./drive.ts";
import type { CallMessage, FromWorker, Port, ToWorker } from "./messages.ts";

/** Answers calls that arrive at `port` with `core`. Calls overlap: between slices a long one lets others in. */
export function serve(port: Port<FromWorker>, core: Core, yieldToHost: YieldToHost): void {
  const running = new Map<number, Record<"cancel" | "enough", AbortController>>();
  /** Packs that wait for what others have. */
  const meeting = new Map<number, (schedule: Schedule | null) => void>();
  const met = (id: number, schedule: Schedule | null): void => {
    meeting.get(id)?.(schedule);
    meeting.delete(id);
  };
  let onHand: { readonly plan: Plan; readonly version: number } | null = null;

  port.onmessage = (event) => {
    const message = event.data as ToWorker;
    if (message.type === "plan") onHand = message;
    else if (message.type === "patch") {
      const made = onHand?.version === message.from ? applyPatch(onHand.plan, message.patch) : null;
      onHand = made?.ok ? { plan: made.value, version: message.version } : null;
    } else if (message.type === "cancel" || message.type === "enough") {
      running.get(message.id)?.[message.type].abort();
      // Nobody answers it any more.
      met(message.id, null);
    } else if (message.type === "met") met(message.id, message.schedule);
    else if (message.type === "ping") port.postMessage({ type: "pong" });
    else if (onHand?.version === message.version) void answer(message, onHand.plan);
    else port.postMessage({ type: "lost", id: message.id });
  };

  async function answer(call: CallMessage, plan: Plan): Promise<void> {
    const controls = { cancel: new AbortController(), enough: new AbortController() };
    running.set(call.id, controls);
    port.postMessage({ type: "begun", id: call.id });
    try {
      const reply = await run(call, plan, { signal: controls.cancel.signal, enough: controls.enough.signal });
      port.postMessage({ type: "answer", id: call.id, answer: reply });
    } catch (error) {
      const text = error instanceof Error ? error.message : "the engine failed";
      port.postMessage({ type: "failure", id: call.id, message: text });
    } finally {
      running.delete(call.id);
    }
  }

  function run<Name extends CallName>(
    { id, name, given, meets }: CallMessage<Name>,
    on: Plan,
    ends: Pick<Hearing<Name>, "signal" | "enough">,
  ): Calls[Name]["answer"] | Promise<Calls[Name]["answer"]> {
    const report = (progress: Calls[Name]["progress"]): void =>
      port.postMessage({ type: "report", id, progress });
    const meet = (handed: HandedDay): Promise<Schedule | null> =>
      new Promise((resolve) => {
        meeting.set(id, resolve);
        port.postMessage({ type: "meet", id, handed });
      });
    return core[name](on, given, { report, yieldToHost, ...ends, ...(meets ? { meet } : {}) });
  }
}

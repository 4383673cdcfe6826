import type { Plan } from "../plan/index.ts";
import type { Core } from "./core.ts";
import type { CallName, Calls, FromWorker, Port, Progress, ToWorker } from "./messages.ts";

/** Gives way to waiting messages, a cancel among them. */
export type Breather = () => Promise<void>;

/** Answers calls that arrive at `port` with `core`. Calls overlap: between slices a long one lets others in. */
export function serve(port: Port<FromWorker>, core: Core, breathe: Breather): void {
  const running = new Map<number, AbortController>();
  let plan: Plan | null = null;

  port.onmessage = (event) => {
    const message = event.data as ToWorker;
    if (message.type === "plan") plan = message.plan;
    else if (message.type === "cancel") running.get(message.id)?.abort();
    else void answer(message);
  };

  async function answer(call: Extract<ToWorker, { type: "call" }>): Promise<void> {
    const control = new AbortController();
    running.set(call.id, control);
    try {
      if (!plan) throw new Error("no plan has been sent");
      const reply = await run(call, plan, control.signal);
      port.postMessage({ type: "answer", id: call.id, answer: reply });
    } catch (error) {
      const text = error instanceof Error ? error.message : "the engine failed";
      port.postMessage({ type: "failure", id: call.id, message: text });
    } finally {
      running.delete(call.id);
    }
  }

  function run(
    call: Extract<ToWorker, { type: "call" }>,
    on: Plan,
    signal: AbortSignal,
  ): Promise<Calls[CallName]["answer"]> | Calls[CallName]["answer"] {
    switch (call.name) {
      case "check":
        return core.check(on, call.args.schedule);
      case "pack":
      case "curve": {
        const tell = (progress: Progress): void =>
          port.postMessage({ type: "report", id: call.id, progress });
        return core[call.name](on, call.args.options, tell, breathe, signal);
      }
      case "mend":
        return core.mend(on, call.args.schedule, call.args.options, breathe, signal);
      case "gridded":
        return core.gridded(on, call.args.schedule);
      case "fitBands":
        return core.fitBands(on, call.args.schedule, call.args.task);
      case "benchReasons":
        return core.benchReasons(on, call.args.schedule);
      case "fromWhat":
        return core.fromWhat(on, call.args.schedule, call.args.ask);
      case "site":
        return core.site(on, call.args.schedule, call.args.ask);
      case "odds":
      case "why":
      case "shed": {
        const tell = (progress: Progress): void =>
          port.postMessage({ type: "report", id: call.id, progress });
        const { schedule } = call.args;
        if (call.name === "why")
          return core.why(on, schedule, call.args.task, call.args.options, tell, breathe, signal);
        return call.name === "odds"
          ? core.odds(on, schedule, call.args.options, tell, breathe, signal)
          : core.shed(on, schedule, call.args.options, tell, breathe, signal);
      }
    }
  }
}

import type { PrintedWork } from "./answers.ts";
import type { Core } from "./core.ts";
import { wordsOf } from "./files.ts";
import { oneCall } from "./onecall.ts";
import type { SessionState } from "./state.ts";

/** Commands that set the judge to work on what is printed. */
export interface PrintCommands {
  /** Works out the moments of the open day that are printed; one run at a time, the one before gives way. */
  askPrinted(): Promise<void>;
}

export function printCommands({ state, ports, onPlan }: Core): PrintCommands {
  const call = oneCall();
  const note = (part: Partial<PrintedWork>): void =>
    state.setState((now) => (now.printed ? { printed: { ...now.printed, ...part } } : {}));

  onPlan(() => {
    if (printedIsStale(state.getState()) && call.end()) note({ running: false, end: "overtaken" });
  });

  return {
    askPrinted() {
      const { plan } = state.getState();
      state.setState({
        printed: { plan, running: true, progress: null, report: null, end: null, message: null },
      });
      return call.ask(
        (signal, whileLive) =>
          ports.engine.printed(
            plan,
            {},
            {
              report: whileLive((progress) => note({ progress })),
              signal,
            },
          ),
        {
          answered: (report) => note({ running: false, report, end: "answered" }),
          failed: (error) => note({ running: false, end: "failed", message: wordsOf(error) }),
        },
      );
    },
  };
}

/** True when the printed moments that are there, or were tried, are of another plan than the open one. */
export function printedIsStale({ printed, plan }: SessionState): boolean {
  return printed !== null && printed.plan !== plan;
}

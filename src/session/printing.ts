import type { PrintedWork } from "./answers.ts";
import type { Core } from "./core.ts";
import { wordsOf } from "./files.ts";
import type { DeskState } from "./state.ts";

/** Commands that set the judge to work on what is printed. */
export interface PrintCommands {
  /** Works out the moments of the open day that are printed; one run at a time, the one before gives way. */
  askPrinted(): Promise<void>;
}

export function printCommands({ state, ports, onPlan }: Core): PrintCommands {
  let mine: AbortController | null = null;

  const note = (part: Partial<PrintedWork>): void =>
    state.setState((now) => (now.printed ? { printed: { ...now.printed, ...part } } : {}));
  const give = (): void => {
    const control = mine;
    mine = null;
    control?.abort();
  };

  onPlan(() => {
    if (mine === null || !printedIsStale(state.getState())) return;
    note({ running: false, end: "overtaken" });
    give();
  });

  return {
    async askPrinted() {
      give();
      const { plan } = state.getState();
      const control = new AbortController();
      mine = control;
      state.setState({
        printed: { plan, running: true, progress: null, report: null, end: null, message: null },
      });
      const tell = (part: Partial<PrintedWork>): void => {
        if (mine === control) note(part);
      };
      try {
        const report = await ports.engine.printed(
          plan,
          {},
          { report: (progress) => tell({ progress }), signal: control.signal },
        );
        tell({ running: false, report, end: "answered" });
      } catch (error) {
        tell({ running: false, end: "failed", message: wordsOf(error) });
      }
      if (mine === control) mine = null;
    },
  };
}

/** True when the printed moments that are there, or were tried, are of another plan than the open one. */
export function printedIsStale({ printed, plan }: DeskState): boolean {
  return printed !== null && printed.plan !== plan;
}

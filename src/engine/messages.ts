import type {
  BenchReason,
  CurveReport,
  FitBand,
  FromAnswer,
  FromAsk,
  GridReport,
  MendReport,
  OddsProgress,
  OddsReport,
  PackProgress,
  PackReport,
  ShedProgress,
  ShedReport,
  Verdict,
  WhyReport,
} from "../answers/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { OddsOptions, PackOptions, ShedOptions, SiteAnswer, SiteAsk, WhyOptions } from "./protocol.ts";

/**
 * What goes over the wire between client and worker: one typed map of calls. The plan is sent once and stands for
 * every call until the next one is sent; messages keep their order.
 */
export interface Calls {
  check: { args: { schedule: Schedule }; answer: Verdict };
  pack: { args: { options: PackOptions }; answer: PackReport };
  mend: { args: { schedule: Schedule; options: PackOptions }; answer: MendReport };
  gridded: { args: { schedule: Schedule }; answer: GridReport };
  fitBands: { args: { schedule: Schedule; task: string }; answer: readonly FitBand[] };
  benchReasons: { args: { schedule: Schedule }; answer: readonly BenchReason[] };
  curve: { args: { options: PackOptions }; answer: CurveReport };
  odds: { args: { schedule: Schedule; options: OddsOptions }; answer: OddsReport };
  shed: { args: { schedule: Schedule; options: ShedOptions }; answer: ShedReport };
  why: { args: { schedule: Schedule; task: string | null; options: WhyOptions }; answer: WhyReport };
  fromWhat: { args: { schedule: Schedule; ask: FromAsk }; answer: FromAnswer | null };
  site: { args: { schedule: Schedule; ask: SiteAsk }; answer: SiteAnswer };
}

export type CallName = keyof Calls;

/** What running calls report. */
export type Progress = PackProgress | OddsProgress | ShedProgress | WhyReport;

export type ToWorker =
  | { readonly type: "plan"; readonly plan: Plan }
  | {
      [Name in CallName]: {
        readonly type: "call";
        readonly id: number;
        readonly name: Name;
        readonly args: Calls[Name]["args"];
      };
    }[CallName]
  | { readonly type: "cancel"; readonly id: number };

export type FromWorker =
  | { readonly type: "report"; readonly id: number; readonly progress: Progress }
  | { readonly type: "answer"; readonly id: number; readonly answer: Calls[CallName]["answer"] }
  | { readonly type: "failure"; readonly id: number; readonly message: string };

/** The end of a message channel: a Worker, a worker's own scope, or a MessagePort. */
export interface Port<Out> {
  postMessage(message: Out): void;
  onmessage: ((event: { readonly data: never }) => void) | null;
}

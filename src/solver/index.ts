export { fitBands } from "./question/bands.ts";
export type { FitBand } from "./question/bands.ts";
export { greedy } from "./greedy.ts";
export { gridded } from "./gridded.ts";
export type { BreachesOf, Gridded } from "./gridded.ts";
export { mend, mendRun } from "./question/mend/index.ts";
export type { Mended, MendRun, MendSettings } from "./question/mend/index.ts";
export { packRun } from "./pack.ts";
export { benchReasons } from "./question/reasons.ts";
export type { Fit } from "./question/firstfit.ts";
export type { BenchReason } from "./question/reasons.ts";
export type { PackRun, PackSettings, RunProgress } from "./search/run.ts";
export { whyRun } from "./question/why/index.ts";
export type {
  Cost,
  Relaxation,
  SaidCause,
  SaidClash,
  WhyReport,
  WhyRun,
  WhySettings,
} from "./question/why/index.ts";

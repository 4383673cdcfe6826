export { fitBands } from "./bands.ts";
export type { FitBand } from "./bands.ts";
export { greedy } from "./greedy.ts";
export { mend, mendRun } from "./mend/index.ts";
export type { Mended, MendRun, MendSettings } from "./mend/index.ts";
export { packRun } from "./pack.ts";
export { benchReasons } from "./reasons.ts";
export type { BenchReason, Fit } from "./reasons.ts";
export type { PackRun, PackSettings, RunProgress } from "./run.ts";
export { whyRun } from "./why/index.ts";
export type {
  Cost,
  Relaxation,
  SaidCause,
  SaidClash,
  SaidLoop,
  WhyReport,
  WhyRun,
  WhySettings,
} from "./why/index.ts";

import { check, type Verdict } from "../check/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import { benchReasons, fitBands, greedy, mend, type PackRun, packRun } from "../solver/index.ts";
import type { BenchReason, FitBand, MendReport, PackOptions, PackProgress, PackReport } from "./protocol.ts";

/**
 * Maker and judge under one roof: the only place that knows both. The maker proposes, the judge has the last word
 * on everything that leaves.
 */
export interface Core {
  check(plan: Plan, schedule: Schedule): Verdict;
  pack(
    plan: Plan,
    options: PackOptions,
    report: (progress: PackProgress) => void,
    breathe: () => Promise<void>,
    signal?: AbortSignal,
  ): Promise<PackReport>;
  mend(
    plan: Plan,
    schedule: Schedule,
    options: PackOptions,
    breathe: () => Promise<void>,
    signal?: AbortSignal,
  ): Promise<MendReport>;
  fitBands(plan: Plan, schedule: Schedule, task: string): readonly FitBand[];
  benchReasons(plan: Plan, schedule: Schedule): readonly BenchReason[];
}

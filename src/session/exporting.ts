import type { Exported } from "../exchange/export/index.ts";
import { walkLines } from "../exchange/export/walklines.ts";
import type { Core } from "./core.ts";

export interface ExportCommands {
  /** What the files of an export are made of: the open plan with its verdict, and the ways and bench reasons as the engine has them now. */
  exported(): Promise<Exported>;
}

export function exportCommands({ state, ports }: Core): ExportCommands {
  return {
    async exported() {
      const { plan, verdict } = state.getState();
      const given = { schedule: plan.schedule };
      const [walks, reasons] = await Promise.all([
        ports.engine.siteWalks(plan, given),
        ports.engine.benchReasons(plan, given),
      ]);
      return {
        plan,
        verdict,
        reasons: new Map(reasons.map((reason) => [reason.task, reason])),
        lines: walkLines(plan, walks, []),
        madeMs: ports.clock.nowMs(),
      };
    },
  };
}

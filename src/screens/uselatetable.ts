import { useEffect } from "react";
import { lateTableIsStale } from "../session/index.ts";
import { useApp, useSession } from "./context.ts";

/**
 * While `wanted`, has the late table of the open day worked out when there is none or the day has changed. What was
 * stopped or has failed is left alone until the day changes or the planner asks.
 */
export function useLateTable(wanted: boolean): void {
  const { session } = useApp();
  const due = useSession(
    (state) => state.lateTable === null || (lateTableIsStale(state) && !state.lateTable.running),
  );
  useEffect(() => {
    if (wanted && due) void session.askLateTable();
  }, [wanted, due, session]);
}

import { useEffect } from "react";
import { shedIsStale } from "../session/index.ts";
import { useAround, useDesk } from "./context.ts";

/**
 * While `wanted`, has the shed order of the open day worked out when there is none or the day has changed. What was
 * stopped or has failed is left alone until the day changes or the planner asks.
 */
export function useShed(wanted: boolean): void {
  const { desk } = useAround();
  const due = useDesk((state) => state.shed === null || (shedIsStale(state) && !state.shed.running));
  useEffect(() => {
    if (wanted && due) void desk.askShed();
  }, [wanted, due, desk]);
}

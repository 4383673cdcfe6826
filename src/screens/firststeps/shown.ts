import type { Services } from "../services.ts";
import type { ViewStore } from "../viewstate.ts";

/** Whether the steps to a packed day are in sight, as this browser keeps it. */
export const KEPT = "outset";

/** Shows the steps to a packed day or puts them away, and keeps it. */
export function put(view: ViewStore, memory: Services["memory"], firstSteps: boolean): void {
  memory.set(KEPT, firstSteps ? "shown" : "away");
  if (view.getState().firstSteps !== firstSteps) view.setState({ firstSteps });
}

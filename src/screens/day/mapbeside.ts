import { useView } from "../context.ts";
import type { ViewStore } from "../viewstate.ts";
import { matchesWindow, useMatching } from "../media.ts";
import type { Services } from "../services.ts";

/** The map of the site beside the lanes: where there is room for both, unless it was put away. */

/** From this width of the window the map stands beside the lanes, CSS pixels. */
export const MAP_FROM_PX = 1600;

const WIDE = `(min-width: ${MAP_FROM_PX}px)`;
const KEPT = "map beside the lanes";

/** True where the window has room for the map. */
export function isWide(): boolean {
  return matchesWindow(WIDE);
}

/** The same, kept up to date. */
export function useWide(): boolean {
  return useMatching(WIDE);
}

/** True while the map stands beside the lanes. */
export function useMapBeside(): boolean {
  const wide = useWide();
  const away = useView((state) => state.mapAway);
  return wide && !away;
}

/** Takes up what was chosen the last time, and keeps every choice from now on; the answer ends it. */
export function keepMapChoice(view: ViewStore, memory: Services["memory"]): () => void {
  view.setState({ mapAway: memory.get(KEPT) === "away" });
  return view.subscribe(({ mapAway }, before) => {
    if (mapAway !== before.mapAway) memory.set(KEPT, mapAway ? "away" : "shown");
  });
}

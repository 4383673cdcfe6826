import { createStore, type StoreApi } from "zustand/vanilla";
import type { MapFrame } from "../../editor/map/index.ts";
import type { Session } from "../../session/index.ts";

/** How the site is looked at: nothing here is part of the plan. */

/** What can be shown and hidden, each by its word. */
const LAYERS = [
  "shading",
  "shadow",
  "contours",
  "keepOuts",
  "emergency",
  "stocks",
  "ways",
  "times",
  "names",
] as const;

export type Layer = (typeof LAYERS)[number];

export const LAYER_WORDS: Readonly<Record<Layer, string>> = {
  shading: "Hillshade",
  shadow: "Shadow",
  contours: "Contours",
  keepOuts: "Keep-outs",
  emergency: "Emergency limit",
  stocks: "Suit limits",
  ways: "Ways",
  times: "Times",
  names: "Names",
};

/** A place in hand. */
interface Moving {
  readonly place: string;
  readonly by: "pointer" | "keys";
  readonly eastM: number;
  readonly northM: number;
}

export interface SiteViewState {
  /** Null until the map is first measured, and again when all is to be shown. */
  readonly frame: MapFrame | null;
  readonly layers: Readonly<Record<Layer, boolean>>;
  /** The EVA whose ways are shown: its id, all of them, or null for the one under way at the minute. */
  readonly eva: string | null;
  /** The chosen place. */
  readonly place: string | null;
  readonly moving: Moving | null;
}

export type SiteViewStore = StoreApi<SiteViewState>;

export const ALL_EVAS = "all evas";

/** A look that shows all but what is `hidden`. */
export function createSiteViewStore(hidden: readonly Layer[] = []): SiteViewStore {
  return createStore<SiteViewState>()(() => ({
    frame: null,
    layers: Object.fromEntries(LAYERS.map((one) => [one, !hidden.includes(one)])) as Record<Layer, boolean>,
    eva: null,
    place: null,
    moving: null,
  }));
}

/** Forgets what was looked at in one plan whenever another is opened; the answer ends it. Layers are kept: they are a habit. */
export function forgetWithPlan(session: Session, siteView: SiteViewStore): () => void {
  return session.state.subscribe(({ slot }, before) => {
    if (slot !== before.slot) siteView.setState({ frame: null, eva: null, place: null, moving: null });
  });
}

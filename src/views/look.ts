import { createStore, type StoreApi } from "zustand/vanilla";
import type { Snapped, Target, TimeWindow } from "../dayline/index.ts";

/** How the desk is looked at: nothing here is part of the plan, and nothing here is undone. */

export type Screen = "day" | "setup" | "paper";
export type Theme = "light" | "dark";

/** What is in hand, for the label beside the pointer. */
export interface InHand {
  readonly task: string;
  /** Lane it was taken by; null from the bench. */
  readonly fromLane: string | null;
  readonly by: "pointer" | "keys";
  /** Where the pointer is, pixels of the page; null for keys. */
  readonly pointer: { readonly x: number; readonly y: number } | null;
  readonly target: Target;
  readonly snap: Snapped | null;
}

export interface LookState {
  readonly screen: Screen;
  readonly theme: Theme;
  /** Time shown on the day line and the margins. */
  readonly window: TimeWindow;
  /** Time under the pointer; null when it is elsewhere. */
  readonly cursorS: number | null;
  /** The block that has the keyboard's place on the day line. */
  readonly focus: { readonly task: string; readonly lane: string } | null;
  readonly inHand: InHand | null;
  /** Every margin of a suit in its own strip, or the four of a suit in one; null leaves it to the room there is. */
  readonly margins: "all" | "least" | null;
  readonly dockPx: number;
  readonly keysShown: boolean;
  /** What a screen reader is told. */
  readonly spoken: string;
}

export type Look = StoreApi<LookState>;

/** The look at the start; `dockPx` is the height of bench and findings. */
export function createLook(theme: Theme, dockPx: number): Look {
  return createStore<LookState>()(() => ({
    screen: "day",
    theme,
    window: { startS: 0, endS: 3600 },
    cursorS: null,
    focus: null,
    inHand: null,
    margins: null,
    dockPx,
    keysShown: false,
    spoken: "",
  }));
}

import { createContext } from "react";
import { useInside } from "../context.ts";
import type { DayGesture } from "./gesture.ts";
import type { Windowing } from "./windowing.ts";

/** What the parts of the day share: the gesture that moves tasks, and the window. */
export interface Day {
  readonly gesture: DayGesture;
  readonly windows: Windowing;
}

export const DayContext = createContext<Day | null>(null);

/** The day around a view. Throws outside of it. */
export function useDay(): Day {
  return useInside(DayContext, "a view stands outside of the day");
}

import { createContext } from "react";
import { useStore } from "zustand";
import type { Leaves, Rehearsed, RehearsalState, RehearsalWork } from "../../session/index.ts";
import { useInside } from "../context.ts";

export const RehearsalContext = createContext<RehearsalWork | null>(null);

/** The rehearsal's commands. Throws outside of its screen. */
export function useRehearsal(): RehearsalWork {
  return useInside(RehearsalContext, "a part of the rehearsal stands outside of its screen");
}

/** A part of the rehearsal's state. */
export function useRehearsalState<Part>(select: (state: RehearsalState) => Part): Part {
  return useStore(useRehearsal().state, select);
}

/** When to leave on the day as it goes on; null where the judge has not tested that. */
export function useLeaves(): Leaves | null {
  return useRehearsalState((state) => state.leaves);
}

/** The day under rehearsal. Throws where there is none: its parts are shown only while there is one. */
export function useRehearsed(): Rehearsed {
  const day = useRehearsalState((state) => state.day);
  if (!day) throw new Error("no day is under rehearsal");
  return day;
}

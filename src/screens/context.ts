import { createContext, useContext, useRef } from "react";
import { useStore } from "zustand";
import type { DeskState } from "../session/index.ts";
import type { Look, LookState } from "./look.ts";
import type { Services } from "./services.ts";

interface Around extends Services {
  readonly look: Look;
}

export const AroundContext = createContext<Around | null>(null);

/** The services and the look around a view. Throws outside of the app. */
export function useAround(): Around {
  const around = useContext(AroundContext);
  if (!around) throw new Error("a view stands outside of the app");
  return around;
}

/** A part of the desk's state; the view is drawn again when that part is another one. */
export function useDesk<Part>(select: (state: DeskState) => Part): Part {
  return useStore(useAround().desk.state, select);
}

/** A list from the desk's state; the view is drawn again only when its members change. */
export function useDeskList<Item>(select: (state: DeskState) => readonly Item[]): readonly Item[] {
  const last = useRef<readonly Item[]>([]);
  return useDesk((state) => {
    const next = select(state);
    const same = next.length === last.current.length && next.every((item, i) => item === last.current[i]);
    if (!same) last.current = next;
    return last.current;
  });
}

/** A part of the look. */
export function useLook<Part>(select: (state: LookState) => Part): Part {
  return useStore(useAround().look, select);
}

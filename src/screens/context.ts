import { type Context, createContext, useContext, useRef } from "react";
import { useStore } from "zustand";
import type { SessionState } from "../session/index.ts";
import type { ViewStore, ViewState } from "./viewstate.ts";
import type { Services } from "./services.ts";

interface AppServices extends Services {
  readonly view: ViewStore;
}

export const AppContext = createContext<AppServices | null>(null);

/** The services and the state of what is looked at, for every part of a screen. Throws outside of the app. */
export function useApp(): AppServices {
  return useInside(AppContext, "a screen stands outside of the app");
}

/** What a part of a screen stands in. Throws, with these words, where it stands outside of it. */
export function useInside<Value>(context: Context<Value | null>, outside: string): Value {
  const value = useContext(context);
  if (!value) throw new Error(outside);
  return value;
}

/** A part of the session's state; the view is drawn again when that part is another one. */
export function useSession<Part>(select: (state: SessionState) => Part): Part {
  return useStore(useApp().session.state, select);
}

/** A list from the session's state; the view is drawn again only when its members change. */
export function useSessionList<Item>(select: (state: SessionState) => readonly Item[]): readonly Item[] {
  const last = useRef<readonly Item[]>([]);
  return useSession((state) => {
    const next = select(state);
    const same = next.length === last.current.length && next.every((item, i) => item === last.current[i]);
    if (!same) last.current = next;
    return last.current;
  });
}

/** A part of what is looked at. */
export function useView<Part>(select: (state: ViewState) => Part): Part {
  return useStore(useApp().view, select);
}

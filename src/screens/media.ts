import { useEffect, useState } from "react";

/** True while the window is as `query` says, a media query. */
export function matchesWindow(query: string): boolean {
  return window.matchMedia?.(query).matches ?? false;
}

/** The same, kept up to date. */
export function useMatching(query: string): boolean {
  const [matching, setMatching] = useState(() => matchesWindow(query));
  useEffect(() => {
    const list = window.matchMedia?.(query);
    const changed = (): void => setMatching(matchesWindow(query));
    list?.addEventListener("change", changed);
    return () => list?.removeEventListener("change", changed);
  }, [query]);
  return matching;
}

import { THEMES, type Theme } from "./screens/viewstate.ts";
import { browserArchive } from "./session/shelf/archive.ts";
import { browserWindows } from "./session/shelf/windows.ts";

/** What lies in this browser, as the first picture and the program both ask for it. */

export const archive = browserArchive();
export const windows = browserWindows();

/** What this browser remembers. It may forbid its store: nothing is remembered then. */
export const memory = {
  get(key: string): string | null {
    try {
      return localStorage.getItem(`lopeline-${key}`);
    } catch {
      return null;
    }
  },
  set(key: string, value: string): boolean {
    try {
      localStorage.setItem(`lopeline-${key}`, value);
      return true;
    } catch {
      return false;
    }
  },
};

/** The theme to begin with: the one that was chosen, or the system's. */
export function firstTheme(): Theme {
  const remembered = memory.get("theme");
  const darkSystem = window.matchMedia("(prefers-color-scheme: dark)").matches;
  return THEMES.find(({ id }) => id === remembered)?.id ?? (darkSystem ? "dark" : "light");
}

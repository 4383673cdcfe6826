import { createContext } from "react";

/** Where in the top row a screen with figures of its own puts them; null while that screen is not shown. */
export const FiguresPlace = createContext<HTMLElement | null>(null);

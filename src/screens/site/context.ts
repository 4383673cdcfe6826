import { createContext, useContext } from "react";
import { useStore } from "zustand";
import type { SiteWork } from "../../session/index.ts";
import type { SiteViewStore, SiteViewState } from "./siteviewstate.ts";

/** What the site's views stand on. */
export interface SiteAround {
  readonly site: SiteWork;
  readonly siteView: SiteViewStore;
}

export const SiteContext = createContext<SiteAround | null>(null);

/** The site's work and look. Throws outside of the site view. */
export function useSite(): SiteAround {
  const around = useContext(SiteContext);
  if (!around) throw new Error("a part of the site view stands outside of it");
  return around;
}

/** A part of the site's look. */
export function useSiteView<Part>(select: (state: SiteViewState) => Part): Part {
  return useStore(useSite().siteView, select);
}

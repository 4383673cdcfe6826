import { createContext } from "react";
import { useStore } from "zustand";
import type { SiteWork } from "../../session/index.ts";
import { useInside } from "../context.ts";
import type { SiteViewStore, SiteViewState } from "./siteviewstate.ts";

/** What the parts of the site screen share: the site's commands, and what of it is looked at. */
export interface SiteParts {
  readonly site: SiteWork;
  readonly siteView: SiteViewStore;
}

export const SiteContext = createContext<SiteParts | null>(null);

/** The site's commands and view. Throws outside of the site view. */
export function useSite(): SiteParts {
  return useInside(SiteContext, "a part of the site view stands outside of it");
}

/** A part of what of the site is looked at. */
export function useSiteView<Part>(select: (state: SiteViewState) => Part): Part {
  return useStore(useSite().siteView, select);
}

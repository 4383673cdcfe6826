import { type Extent, fitted, zoomedMap } from "../../editor/map/index.ts";
import type { Session, SiteWork } from "../../session/index.ts";
import type { ViewStore } from "../viewstate.ts";
import { glide } from "./glide.ts";
import { type PlaceWork, placeWork } from "./placework.ts";
import { PAD_PX, placesExtent } from "./shown.ts";
import type { SiteViewStore } from "./siteviewstate.ts";

/** How much closer or farther one step of the zoom is. */
export const ZOOM = 1.4;

/** What is done on the map: with places, with the frame, and with the minute that is shown. */
export interface MapWork extends PlaceWork {
  fit(): void;
  zoom(factor: number): void;
  /** The minute is moved by so many. */
  minutes(by: number): void;
  /** The ground that the middle of the map stays inside of. */
  extent(): Extent;
}

/** What it is done on. */
export interface MapWorkOn {
  readonly session: Session;
  readonly view: ViewStore;
  readonly siteView: SiteViewStore;
  readonly site: SiteWork;
  readonly extent: () => Extent;
  /** The minute that is shown. */
  readonly minuteS: () => number;
}

export function mapWork({ session, view, siteView, site, extent, minuteS }: MapWorkOn): MapWork {
  return {
    ...placeWork(session, view, siteView, site),
    extent,
    fit() {
      const { frame } = siteView.getState();
      const all = placesExtent(session.state.getState().plan);
      if (frame) glide(siteView, fitted(all, frame.widthPx, frame.heightPx, PAD_PX));
    },
    zoom(factor) {
      const { frame } = siteView.getState();
      if (frame) glide(siteView, zoomedMap(frame, factor, frame.widthPx / 2, frame.heightPx / 2));
    },
    minutes(count) {
      const { lengthS } = session.state.getState().plan.stay;
      const to = Math.min(lengthS, Math.max(0, Math.round(minuteS() / 60 + count) * 60));
      view.setState({ cursorS: to, minuteS: to });
    },
  };
}

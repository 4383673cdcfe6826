import { type Extent, fitted, zoomedMap } from "../../editor/map/index.ts";
import type { Desk, SiteWork } from "../../session/index.ts";
import type { Look } from "../look.ts";
import { glide } from "./glide.ts";
import { type PlaceWork, placeWork } from "./placework.ts";
import { PAD_PX, placesExtent } from "./shown.ts";
import type { SiteLook } from "./sitelook.ts";

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
  readonly desk: Desk;
  readonly look: Look;
  readonly siteLook: SiteLook;
  readonly site: SiteWork;
  readonly extent: () => Extent;
  /** The minute that is shown. */
  readonly minuteS: () => number;
}

export function mapWork({ desk, look, siteLook, site, extent, minuteS }: MapWorkOn): MapWork {
  return {
    ...placeWork(desk, look, siteLook, site),
    extent,
    fit() {
      const { frame } = siteLook.getState();
      const all = placesExtent(desk.state.getState().plan);
      if (frame) glide(siteLook, fitted(all, frame.widthPx, frame.heightPx, PAD_PX));
    },
    zoom(factor) {
      const { frame } = siteLook.getState();
      if (frame) glide(siteLook, zoomedMap(frame, factor, frame.widthPx / 2, frame.heightPx / 2));
    },
    minutes(count) {
      const { lengthS } = desk.state.getState().plan.stay;
      const to = Math.min(lengthS, Math.max(0, Math.round(minuteS() / 60 + count) * 60));
      look.setState({ cursorS: to, minuteS: to });
    },
  };
}

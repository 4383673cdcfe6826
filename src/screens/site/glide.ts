import type { MapFrame } from "../../editor/map/index.ts";
import type { SiteViewStore } from "./siteviewstate.ts";

const GLIDE_MS = 160;

/** The glide under way on each map: a newer one ends it. */
const under = new WeakMap<SiteViewStore, MapFrame>();

/** Moves the map to a frame in a short glide; at once for those who want no motion. A hand on the map ends it. */
export function glide(siteView: SiteViewStore, to: MapFrame): void {
  const { frame: from } = siteView.getState();
  if (!from || window.matchMedia?.("(prefers-reduced-motion: reduce)").matches) {
    siteView.setState({ frame: to });
    return;
  }
  under.set(siteView, to);
  let last = from;
  let startMs: number | null = null;
  const step = (nowMs: number): void => {
    // A hand or a newer glide has moved the map since.
    if (under.get(siteView) !== to || siteView.getState().frame !== last) return;
    startMs ??= nowMs;
    const share = Math.min(1, (nowMs - startMs) / GLIDE_MS);
    const eased = share * (2 - share);
    last = share === 1 ? to : between(from, to, eased);
    siteView.setState({ frame: last });
    if (share < 1) requestAnimationFrame(step);
  };
  requestAnimationFrame(step);
}

/** Closer by equal shares in equal times, the middle moving as the scale does. */
function between(from: MapFrame, to: MapFrame, share: number): MapFrame {
  const pxPerM = from.pxPerM * (to.pxPerM / from.pxPerM) ** share;
  // Moved by as much as the view has shrunk or grown, so that a point held by a zoom stays on its pixel.
  const width = (px: number): number => 1 / px;
  const span = width(to.pxPerM) - width(from.pxPerM);
  const moved = Math.abs(span) < 1e-12 ? share : (width(pxPerM) - width(from.pxPerM)) / span;
  return {
    ...to,
    pxPerM,
    eastM: from.eastM + (to.eastM - from.eastM) * moved,
    northM: from.northM + (to.northM - from.northM) * moved,
  };
}

import { type Box, type MapFrame, scaleBar } from "../../editor/map/index.ts";

/** Where the scale bar begins, how far above the map's foot it lies, and how long it may be, px. */
export const SCALE = { x: 76, abovePx: 22, mostPx: 150 };
/** The middle of the rose from the lower left corner, and what it takes about itself with its letter, px. */
export const ROSE = { x: 38, abovePx: 42, radius: 20, roomPx: 38 };

/** What scale bar and north take up, for names and heights to keep clear of. */
export function frameBoxes({ pxPerM, heightPx }: MapFrame): readonly Box[] {
  const y = heightPx - SCALE.abovePx;
  const roseY = heightPx - ROSE.abovePx;
  return [
    { left: SCALE.x - 4, right: SCALE.x + scaleBar(pxPerM, SCALE.mostPx).px + 4, top: y - 24, bottom: y + 4 },
    {
      left: ROSE.x - ROSE.roomPx,
      right: ROSE.x + ROSE.roomPx,
      top: roseY - ROSE.roomPx,
      bottom: roseY + ROSE.roomPx,
    },
  ];
}

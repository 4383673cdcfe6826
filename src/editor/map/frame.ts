/** A map's frame: metres east and north of the lander against pixels, north up. Pure geometry. */
export interface MapFrame {
  /** What stands in the middle. */
  readonly eastM: number;
  readonly northM: number;
  readonly pxPerM: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface MapPoint {
  readonly eastM: number;
  readonly northM: number;
}

/** The upright box round some ground. */
export interface Extent {
  readonly westM: number;
  readonly eastM: number;
  readonly southM: number;
  readonly northM: number;
}

/** Pixels from the left edge. */
export function mapX(frame: MapFrame, eastM: number): number {
  return frame.widthPx / 2 + (eastM - frame.eastM) * frame.pxPerM;
}

/** Pixels from the top edge. */
export function mapY(frame: MapFrame, northM: number): number {
  return frame.heightPx / 2 - (northM - frame.northM) * frame.pxPerM;
}

/** The ground under a pixel: the inverse of `mapX` and `mapY`. */
export function groundAt(frame: MapFrame, x: number, y: number): MapPoint {
  return {
    eastM: frame.eastM + (x - frame.widthPx / 2) / frame.pxPerM,
    northM: frame.northM - (y - frame.heightPx / 2) / frame.pxPerM,
  };
}

/** The frame with `extent` in the middle and as large as fits with `padPx` about it; never closer than `most`. */
export function fitted(extent: Extent, widthPx: number, heightPx: number, padPx: number): MapFrame {
  const wide = Math.max(1, extent.eastM - extent.westM);
  const high = Math.max(1, extent.northM - extent.southM);
  const room = (px: number): number => Math.max(20, px - 2 * padPx);
  return {
    eastM: (extent.westM + extent.eastM) / 2,
    northM: (extent.southM + extent.northM) / 2,
    pxPerM: Math.min(MOST_PX_PER_M, room(widthPx) / wide, room(heightPx) / high),
    widthPx,
    heightPx,
  };
}

/** The closest look, pixels for a metre. */
const MOST_PX_PER_M = 8;
/** The farthest look. */
const LEAST_PX_PER_M = 0.002;

/** `factor` times as close with the ground under the pixel staying where it is. */
export function zoomedMap(frame: MapFrame, factor: number, x: number, y: number): MapFrame {
  const pxPerM = Math.min(MOST_PX_PER_M, Math.max(LEAST_PX_PER_M, frame.pxPerM * factor));
  const point = groundAt(frame, x, y);
  return {
    ...frame,
    pxPerM,
    eastM: point.eastM - (x - frame.widthPx / 2) / pxPerM,
    northM: point.northM + (y - frame.heightPx / 2) / pxPerM,
  };
}

/** The ground moved by so many pixels, its middle kept inside `extent`. */
export function pannedMap(frame: MapFrame, byX: number, byY: number, extent: Extent): MapFrame {
  const inside = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
  return {
    ...frame,
    eastM: inside(frame.eastM - byX / frame.pxPerM, extent.westM, extent.eastM),
    northM: inside(frame.northM + byY / frame.pxPerM, extent.southM, extent.northM),
  };
}

/** The frame moved no farther than needed to have the point `padPx` inside of its edges; the same one when it has. */
export function showing(frame: MapFrame, point: MapPoint, padPx: number): MapFrame {
  const x = mapX(frame, point.eastM);
  const y = mapY(frame, point.northM);
  const pad = Math.min(padPx, frame.widthPx / 3, frame.heightPx / 3);
  const byX = x < pad ? x - pad : x > frame.widthPx - pad ? x - frame.widthPx + pad : 0;
  const byY = y < pad ? y - pad : y > frame.heightPx - pad ? y - frame.heightPx + pad : 0;
  if (byX === 0 && byY === 0) return frame;
  return { ...frame, eastM: frame.eastM + byX / frame.pxPerM, northM: frame.northM - byY / frame.pxPerM };
}

/** The box round points; one metre about the lander where there are none. */
export function extentOf(points: readonly MapPoint[]): Extent {
  if (points.length === 0) return { westM: -1, eastM: 1, southM: -1, northM: 1 };
  const east = points.map((one) => one.eastM);
  const north = points.map((one) => one.northM);
  return {
    westM: Math.min(...east),
    eastM: Math.max(...east),
    southM: Math.min(...north),
    northM: Math.max(...north),
  };
}

/** A scale bar of 1, 2 or 5 times a power of ten metres, at most `mostPx` long. */
export function scaleBar(pxPerM: number, mostPx: number): { readonly metres: number; readonly px: number } {
  const most = mostPx / pxPerM;
  const power = 10 ** Math.floor(Math.log10(most));
  const metres = [5, 2, 1].map((one) => one * power).find((one) => one <= most) ?? power;
  return { metres, px: metres * pxPerM };
}

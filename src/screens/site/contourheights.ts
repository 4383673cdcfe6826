import type { Line, SiteGround } from "../../answers/index.ts";
import { remembered } from "../../kernel/index.ts";
import { type Box, type MapFrame, mapX, mapY, overlap } from "../../editor/map/index.ts";

/** Where the height of a contour stands on the map, pixels, its middle. */
export interface HeightLabel {
  readonly levelM: number;
  readonly x: number;
  readonly y: number;
}

/** Short contours are told by their neighbours, pixels. */
const SHORT_PX = 260;
/** Parts of a line at which its height may stand, the first that is free. */
const PARTS = [1 / 3, 1 / 2, 2 / 3, 1 / 6, 5 / 6] as const;
/** How near heights may come to each other, and to a place, beside which its name stands; pixels across and down. */
const APART = { x: 64, y: 28 };
const FROM_PLACE = { x: 90, y: 16 };
/** Half of what a height takes itself, pixels. */
const HALF_PX = { x: 20, y: 8 };

/** The heights of the strong contours of `ground` that have room: none over another one or in a box of `kept`, none beside a place. */
export function contourHeights(
  ground: Pick<SiteGround, "contours">,
  frame: MapFrame,
  places: readonly { readonly eastM: number; readonly northM: number }[],
  kept: readonly Box[],
): readonly HeightLabel[] {
  const put: HeightLabel[] = [];
  const placesPx = places.map(({ eastM, northM }) => ({ x: mapX(frame, eastM), y: mapY(frame, northM) }));
  const near = (
    a: { readonly x: number; readonly y: number },
    b: { readonly x: number; readonly y: number },
    by: { readonly x: number; readonly y: number },
  ): boolean => Math.abs(a.x - b.x) < by.x && Math.abs(a.y - b.y) < by.y;
  const isKept = ({ x, y }: { readonly x: number; readonly y: number }): boolean => {
    const own = { left: x - HALF_PX.x, right: x + HALF_PX.x, top: y - HALF_PX.y, bottom: y + HALF_PX.y };
    return kept.some((box) => overlap(own, box));
  };
  for (const { levelM, strong, lines } of ground.contours) {
    if (!strong) continue;
    for (const line of lines) {
      if (lengthOf(line) * frame.pxPerM < SHORT_PX) continue;
      const free = PARTS.map((part) => {
        const at = 2 * Math.floor((line.length / 2) * part);
        return { levelM, x: mapX(frame, line[at]!), y: mapY(frame, line[at + 1]!) };
      }).find(
        (one) =>
          one.x >= 0 &&
          one.y >= 0 &&
          one.x <= frame.widthPx &&
          one.y <= frame.heightPx &&
          !isKept(one) &&
          !put.some((other) => near(one, other, APART)) &&
          !placesPx.some((place) => near(one, place, FROM_PLACE)),
      );
      if (free) put.push(free);
    }
  }
  return put;
}

/** Length of a line, metres. */
const lengthOf = remembered((line: Line): number => {
  let length = 0;
  for (let k = 2; k < line.length; k += 2)
    length += Math.hypot(line[k]! - line[k - 2]!, line[k + 1]! - line[k - 1]!);
  return length;
});

import { useCallback, useMemo } from "react";
import type { Brush } from "../parts/canvas/brush.ts";
import { paintContours, paintHeights, paintShading, shadingOf } from "./paintground.ts";
import { paintKeepOuts, paintRings } from "./paintlimits.ts";
import type { Picture } from "./picture.ts";

/** What every map of the site paints below its ways and places: shaded ground, contours, keep-outs, rings. */
export function useBase(picture: Picture): (brush: Brush) => void {
  const { frame, ground, light, theme, layers } = picture;
  const shading = useMemo(
    () => (ground && light ? shadingOf(ground, light, theme, layers.shading, layers.shadow) : null),
    [ground, light, theme, layers.shading, layers.shadow],
  );
  return useCallback(
    (brush: Brush) => {
      if (ground && shading) paintShading(brush, frame, ground, shading);
      if (layers.contours) paintContours(brush, picture);
      if (layers.keepOuts) paintKeepOuts(brush, picture);
      if (layers.contours) paintHeights(brush, picture);
      paintRings(brush, picture);
    },
    [picture, frame, ground, shading, layers],
  );
}

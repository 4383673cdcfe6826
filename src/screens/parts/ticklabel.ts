/** How wide the longest name of a tick is, with the gap to its line. */
const LABEL_PX = 40;
const GAP_PX = 3;

/** Where the name of a tick at `xPx` stands: behind its line, or before it where the picture ends too soon. */
export function tickLabel(
  xPx: number,
  widthPx: number,
): { readonly x: number; readonly textAnchor: "start" | "end" } {
  return xPx + LABEL_PX <= widthPx
    ? { x: xPx + GAP_PX, textAnchor: "start" }
    : { x: xPx - GAP_PX, textAnchor: "end" };
}

export { extentOf, fitted, mapX, mapY, pannedMap, scaleBar, showing, groundAt, zoomedMap } from "./frame.ts";
export type { Extent, MapFrame, MapPoint } from "./frame.ts";
export { layLabels, overlap } from "./labels.ts";
export type { Box, LabelWish } from "./labels.ts";
export { layPlates, meets } from "./plates.ts";
export type { Leader, Plates } from "./plates.ts";
export { afootAt, beside, passedAt, pointOn, visitsOf } from "./afoot.ts";

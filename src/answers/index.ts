/** The types of what leaves the core, each said once: judge and maker make them, everything above reads them. */
export type * from "./bands.ts";
export type * from "./comparison.ts";
export type * from "./from.ts";
export type * from "./grid.ts";
export type * from "./mend.ts";
export type * from "./odds.ts";
export type * from "./pack.ts";
export type * from "./printed.ts";
export type * from "./reasons.ts";
export type * from "./late.ts";
export type * from "./site.ts";
export type * from "./turnback.ts";
export type * from "./verdict.ts";
export type * from "./why.ts";
export type { Gauges, GoIf, HomeIf } from "./homeif.ts";

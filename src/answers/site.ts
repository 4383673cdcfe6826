import type { Explained, Interval } from "../kernel/index.ts";
import type { Consumable } from "../plan/index.ts";
import type { Verdict } from "./verdict.ts";

/** What the core says of the site: the ground itself, its light, how far is too far, and who walks where. */

/** A polyline: east and north of the lander in metres, one after the other. */
export type Line = Float64Array;

/** The ground as a picture needs it. */
export interface SiteGround {
  readonly columns: number;
  readonly rows: number;
  readonly cellM: number;
  readonly westM: number;
  readonly southM: number;
  /** Row by row from the south, west to east, m against the ground at the lander; NaN where unknown. */
  readonly heightM: Float32Array;
  readonly lowM: number;
  readonly highM: number;
  /** Height between two contours, m. */
  readonly stepM: number;
  readonly contours: readonly {
    readonly levelM: number;
    /** Every fifth one, drawn stronger. */
    readonly strong: boolean;
    readonly lines: readonly Line[];
  }[];
  /** Where the heights come from, in words. */
  readonly source: string;
}

/** The light on the ground at one moment. */
export interface SiteLight {
  readonly atS: number;
  /** Where the sun stands, from north over east and from the level; null where it is not known. */
  readonly sun: { readonly azimuthDeg: number; readonly elevationDeg: number } | null;
  /** What the shading is: in the light of the true sun, or from the north-west at 45 degrees only to be read by. */
  readonly by: "sun" | "convention";
  /** Shading by point of the grid, 0 dark to 255, level ground 128; null without a grid. */
  readonly shade: Uint8Array | null;
  /** 1 where the sun reaches the ground, 0 in shadow; null where that is not known. */
  readonly lit: Uint8Array | null;
  readonly from: readonly Explained[];
}

/** What one suit has left on an EVA, kg and Wh. */
export interface Left {
  readonly eva: string;
  readonly crew: string;
  readonly amounts: Readonly<Record<Consumable, number>>;
}

/** A limit of the walk back, and the lines on which the walk back takes as long. */
export interface SiteRing {
  readonly kind: "emergency" | "shared" | "stock";
  /** Whose it is. */
  readonly crew: readonly string[];
  /** What bounds it; null for emergency oxygen. */
  readonly by: Consumable | null;
  /** Whole seconds, rounded down; 0 where the reserve is gone. */
  readonly seconds: number;
  readonly lines: readonly Line[];
  /** grid: by the quickest ways over the ground. level: as if all ground were level and open. */
  readonly over: "grid" | "level";
  readonly from: readonly Explained[];
}

/** A place with its way home and its light. */
export interface SitePlace {
  readonly id: string;
  /** Straight line from the lander, m, and its bearing, degrees; NaN at the lander. */
  readonly distanceM: number;
  readonly bearingDeg: number;
  /** Height against the lander's, m; null where the ground is not known. */
  readonly upM: number | null;
  /** Walk-back time, whole seconds rounded up, and distance; -1 where there is no way home. */
  readonly homeS: number;
  readonly homeM: number;
  /** When the sun shines on it; null where that is not known. */
  readonly lit: readonly Interval[] | null;
  /** When the sun is surely behind the ground there; neither lit nor this where unknown ground may hide it. */
  readonly shaded: readonly Interval[] | null;
  readonly from: readonly Explained[];
}

/** A stretch of an outing on the ground. */
export interface SiteLeg {
  readonly kind: "egress" | "traverse" | "task" | "wait" | "ingress";
  readonly task: string | null;
  readonly startS: number;
  readonly endS: number;
  /** Places at both ends. */
  readonly fromPlace: string;
  readonly toPlace: string;
  readonly walkM: number;
  /** East, north, and seconds from touchdown, of every corner; one corner when standing still. */
  readonly course: Float64Array;
}

/** One crew member's way through one EVA. */
export interface SiteCourse {
  readonly eva: string;
  readonly crew: string;
  readonly legs: readonly SiteLeg[];
}

/** The day on the ground. */
export interface SiteWalks {
  readonly verdict: Verdict;
  readonly places: readonly SitePlace[];
  readonly courses: readonly SiteCourse[];
}

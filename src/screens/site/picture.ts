import type { SiteGround, SiteLight, SiteRing, SiteWalks } from "../../answers/index.ts";
import type { MapFrame } from "../../editor/map/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { Theme } from "../viewstate.ts";
import type { Layer } from "./siteviewstate.ts";

/** All that the map is drawn from. */
export interface Picture {
  readonly frame: MapFrame;
  /** The plan as shown: with the place in hand where it is held. */
  readonly plan: Plan;
  readonly theme: Theme;
  readonly layers: Readonly<Record<Layer, boolean>>;
  readonly ground: SiteGround | null;
  readonly light: SiteLight | null;
  readonly rings: readonly SiteRing[];
  readonly walks: SiteWalks | null;
  /** EVAs whose ways are shown. */
  readonly evas: ReadonlySet<string>;
  readonly minuteS: number;
  readonly place: string | null;
  readonly moving: boolean;
  /** Times as the chosen clock has them, whole minutes. */
  readonly time: (atS: number) => string;
}

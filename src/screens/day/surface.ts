import type { WalkS } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { Desk } from "../../session/index.ts";
import type { Look } from "../look.ts";
import type { GroundSource } from "./ground.ts";
import type { Windowing } from "./windowing.ts";

/** What the gesture works on. */
export interface GestureSurface {
  readonly desk: Desk;
  readonly look: Look;
  readonly ground: GroundSource;
  readonly windows: Windowing;
  readonly walkS: (plan: Plan) => WalkS;
}

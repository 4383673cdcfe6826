import type { WalkS } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { Session } from "../../session/index.ts";
import type { ViewStore } from "../viewstate.ts";
import type { GroundSource } from "./ground.ts";
import type { Windowing } from "./windowing.ts";

/** What the gesture works on. */
export interface GestureSurface {
  readonly session: Session;
  readonly view: ViewStore;
  readonly ground: GroundSource;
  readonly windows: Windowing;
  readonly walkS: (plan: Plan) => WalkS;
}

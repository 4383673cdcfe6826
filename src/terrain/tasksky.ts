import type { Interval } from "../kernel/index.ts";
import { bearingDeg, type ElevationRange } from "../physics/index.ts";
import type { Heavens } from "./heavens.ts";
import type { Point } from "./shapes.ts";

/** What a task asks of the sky, and where it is done. */
export interface SkyTask {
  readonly place?: string | undefined;
  readonly endPlace?: string | undefined;
  readonly sun?: ElevationRange | undefined;
  readonly light?: "lit" | "shaded" | undefined;
  readonly sunAngle?: (ElevationRange & { readonly facingDeg?: number | undefined }) | undefined;
  readonly relay: boolean;
}

/** Stretches for each thing a task asks of the sky; null where it is not known, absent where it does not ask. */
export interface TaskSky {
  readonly sun?: readonly Interval[] | null;
  readonly light?: readonly Interval[] | null;
  readonly sunAngle?: readonly Interval[] | null;
  /** The relay passes, and with an Earth link the stretches with the Earth over the horizon, where that is known. */
  readonly relay?: readonly Interval[];
  /** True where the Earth would be a relay, but whether it is in view is not known. */
  readonly isEarthUnknown?: boolean;
}

/** Where tasks are done and how they reach home, of a plan. */
export interface TaskGround {
  readonly places: readonly (Point & { readonly id: string; readonly kind: string })[];
  readonly relayPasses: readonly Interval[];
  readonly earthLink: boolean;
}

/**
 * When the sky is as `task` asks. A task without place is done at the lander; one that ends elsewhere asks for both
 * ends. The task lies wholly inside one stretch of each list.
 */
export function taskSky(
  heavens: Heavens,
  { places, relayPasses, earthLink }: TaskGround,
  task: SkyTask,
): TaskSky {
  const place = (id: string | undefined): Point | undefined => places.find((one) => one.id === id);
  const from = place(task.place) ?? places.find((one) => one.kind === "lander");
  const to = place(task.endPlace) ?? from;
  const ends = from && to ? (from === to ? [from] : [from, to]) : [];
  const heading = task.sunAngle?.facingDeg ?? (from && to ? headingOf(from, to) : NaN);
  const earth = task.relay && earthLink ? heavens.earth(ends) : [];
  return {
    ...(task.sun ? { sun: heavens.sun(task.sun) } : {}),
    ...(task.light ? { light: heavens.light(ends, task.light) } : {}),
    ...(task.sunAngle
      ? { sunAngle: Number.isNaN(heading) ? null : heavens.sunAngle(heading, task.sunAngle) }
      : {}),
    ...(task.relay ? { relay: [...relayPasses, ...(earth ?? [])] } : {}),
    ...(earth === null ? { isEarthUnknown: true } : {}),
  };
}

function headingOf(from: Point, to: Point): number {
  return bearingDeg(to.eastM - from.eastM, to.northM - from.northM);
}

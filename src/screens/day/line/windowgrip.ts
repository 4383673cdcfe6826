import { type PointerEvent as ReactPointerEvent, useRef } from "react";
import type { TimeScale, WindowLimits } from "../../../editor/index.ts";
import type { Windowing } from "../windowing.ts";
import { CLICK_PX } from "./sizes.ts";

/** What of the window's frame is in hand, and how it stood when it was taken. */
interface Grip {
  readonly part: "window" | "start" | "end";
  readonly atS: number;
  readonly startS: number;
  readonly endS: number;
  readonly moved: boolean;
}

/** So near an end of the window takes that end, pixels. */
const END_PX = 8;

/** The frame of the shown window on the strip of the whole stay, as a pointer drags it. */
export interface WindowGrip {
  press(event: ReactPointerEvent<HTMLElement>): void;
  drag(event: ReactPointerEvent<HTMLElement>): void;
  release(): void;
  lose(): void;
}

/** Drags the window by its middle or by an end; `clicked` gets the time of a press that moved nothing. */
export function useWindowGrip(props: {
  readonly scale: TimeScale;
  readonly limits: WindowLimits;
  readonly window: TimeScale["window"];
  readonly windows: Windowing;
  readonly clicked: (atS: number) => void;
}): WindowGrip {
  const { scale, limits, window, windows, clicked } = props;
  const grip = useRef<Grip | null>(null);
  const at = (event: ReactPointerEvent): number =>
    scale.at(event.clientX - event.currentTarget.getBoundingClientRect().left);
  return {
    press(event) {
      event.currentTarget.setPointerCapture(event.pointerId);
      grip.current = taken(scale, window, at(event));
    },
    drag(event) {
      const held = grip.current;
      if (!held) return;
      const byS = at(event) - held.atS;
      if (!held.moved && Math.abs(scale.x(held.atS + byS) - scale.x(held.atS)) < CLICK_PX) return;
      grip.current = { ...held, moved: true };
      windows.show(led(held, byS, limits));
    },
    release() {
      const held = grip.current;
      grip.current = null;
      if (held && !held.moved) clicked(held.atS);
    },
    lose: () => void (grip.current = null),
  };
}

/** Which part a press at a time takes; beside the window it is brought there first. */
function taken(scale: TimeScale, window: TimeScale["window"], atS: number): Grip {
  const [left, right, px] = [scale.x(window.startS), scale.x(window.endS), scale.x(atS)];
  const inside = px > left - END_PX && px < right + END_PX;
  const part = Math.abs(px - left) < END_PX ? "start" : Math.abs(px - right) < END_PX ? "end" : "window";
  const byS = inside ? 0 : atS - (window.startS + window.endS) / 2;
  return { part, atS, startS: window.startS + byS, endS: window.endS + byS, moved: false };
}

/** The window that a grip led so far makes. */
function led({ part, startS, endS }: Grip, byS: number, limits: WindowLimits): TimeScale["window"] {
  if (part === "window") return { startS: startS + byS, endS: endS + byS };
  return part === "start"
    ? { startS: Math.max(limits.startS, Math.min(startS + byS, endS - limits.leastS)), endS }
    : { startS, endS: Math.min(limits.endS, Math.max(endS + byS, startS + limits.leastS)) };
}

import { type PointerEvent as ReactPointerEvent, useRef } from "react";
import type { TimeScale, WindowLimits } from "../../../editor/index.ts";
import type { Windowing } from "../windowing.ts";
import { CLICK_PX } from "./sizes.ts";

/** What of the window's frame is in hand, and how it stood when it was taken. */
interface PressedFrame {
  readonly part: "window" | "start" | "end";
  readonly atS: number;
  readonly startS: number;
  readonly endS: number;
  readonly moved: boolean;
}

/** So near an end of the window takes that end, pixels. */
const END_PX = 8;

/** The frame of the shown window on the strip of the whole stay, as a pointer drags it. */
export interface WindowDrag {
  press(event: ReactPointerEvent<HTMLElement>): void;
  move(event: ReactPointerEvent<HTMLElement>): void;
  release(): void;
  lose(): void;
}

/** Drags the window by its middle or by an end; `clicked` gets the time of a press that moved nothing. */
export function useWindowDrag(props: {
  readonly scale: TimeScale;
  readonly limits: WindowLimits;
  readonly window: TimeScale["window"];
  readonly windows: Windowing;
  readonly clicked: (atS: number) => void;
}): WindowDrag {
  const { scale, limits, window, windows, clicked } = props;
  const pressed = useRef<PressedFrame | null>(null);
  const at = (event: ReactPointerEvent): number =>
    scale.at(event.clientX - event.currentTarget.getBoundingClientRect().left);
  return {
    press(event) {
      event.currentTarget.setPointerCapture(event.pointerId);
      pressed.current = taken(scale, window, at(event));
    },
    move(event) {
      const frame = pressed.current;
      if (!frame) return;
      const byS = at(event) - frame.atS;
      if (!frame.moved && Math.abs(scale.x(frame.atS + byS) - scale.x(frame.atS)) < CLICK_PX) return;
      pressed.current = { ...frame, moved: true };
      windows.show(led(frame, byS, limits));
    },
    release() {
      const frame = pressed.current;
      pressed.current = null;
      if (frame && !frame.moved) clicked(frame.atS);
    },
    lose: () => void (pressed.current = null),
  };
}

/** Which part a press at a time takes; beside the window it is brought there first. */
function taken(scale: TimeScale, window: TimeScale["window"], atS: number): PressedFrame {
  const [left, right, px] = [scale.x(window.startS), scale.x(window.endS), scale.x(atS)];
  const inside = px > left - END_PX && px < right + END_PX;
  const part = Math.abs(px - left) < END_PX ? "start" : Math.abs(px - right) < END_PX ? "end" : "window";
  const byS = inside ? 0 : atS - (window.startS + window.endS) / 2;
  return { part, atS, startS: window.startS + byS, endS: window.endS + byS, moved: false };
}

/** The window that a grip led so far makes. */
function led({ part, startS, endS }: PressedFrame, byS: number, limits: WindowLimits): TimeScale["window"] {
  if (part === "window") return { startS: startS + byS, endS: endS + byS };
  return part === "start"
    ? { startS: Math.max(limits.startS, Math.min(startS + byS, endS - limits.leastS)), endS }
    : { startS, endS: Math.min(limits.endS, Math.max(endS + byS, startS + limits.leastS)) };
}

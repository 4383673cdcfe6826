import { type RefObject, useEffect, useMemo } from "react";
import type { TimeScale } from "../../../editor/index.ts";
import type { Windowing } from "../windowing.ts";

/** Empty ground is dragged to pan; two fingers on it pan and zoom; the wheel zooms about the pointer, sideways it pans. */
export interface Panning {
  press(event: PointerEvent): void;
  pinching(): boolean;
}

const WHEEL_STEP = 0.0016;

/** An element that is panned, and its scale. */
interface Ground {
  readonly stage: RefObject<HTMLElement | null>;
  readonly scale: TimeScale;
  readonly windows: Windowing;
}

export function usePanning(
  stage: RefObject<HTMLElement | null>,
  scale: TimeScale,
  windows: Windowing,
  wheelZooms = true,
): Panning {
  const ground = useMemo(() => ({ stage, scale, windows }), [stage, scale, windows]);
  useWheel(ground, wheelZooms);
  useOwnStrokes(stage);
  return useFingers(ground);
}

/** One finger or the pressed mouse pans, two pan and zoom. */
function useFingers(ground: Ground): Panning {
  /** Where each pointer that is down was last, pixels of the page. */
  const fingers = useMemo(() => new Map<number, number>(), []);
  useEffect(() => {
    const move = (event: PointerEvent): void => {
      if (fingers.has(event.pointerId)) follow(ground, fingers, event.pointerId, event.clientX);
    };
    const lift = (event: PointerEvent): void => void fingers.delete(event.pointerId);
    window.addEventListener("pointermove", move);
    window.addEventListener("pointerup", lift);
    window.addEventListener("pointercancel", lift);
    return () => {
      window.removeEventListener("pointermove", move);
      window.removeEventListener("pointerup", lift);
      window.removeEventListener("pointercancel", lift);
    };
  }, [fingers, ground]);
  return useMemo(
    () => ({
      press: (event: PointerEvent) => void fingers.set(event.pointerId, event.clientX),
      pinching: () => fingers.size > 0,
    }),
    [fingers],
  );
}

/** Fingers nearer to each other than this do not zoom, pixels. */
const LEAST_APART_PX = 8;

/** What a finger that has moved to `x` does to the window. */
function follow(
  { stage, scale, windows }: Ground,
  fingers: Map<number, number>,
  pointer: number,
  x: number,
): void {
  const before = fingers.get(pointer) ?? x;
  if (fingers.size === 1) windows.panBy((before - x) / scale.pxPerS);
  else {
    const other = [...fingers].find(([id]) => id !== pointer)?.[1] ?? x;
    const [wide, was] = [Math.abs(x - other), Math.abs(before - other)];
    const left = stage.current?.getBoundingClientRect().left ?? 0;
    if (wide > LEAST_APART_PX && was > LEAST_APART_PX)
      windows.zoomAbout(scale.at((x + other) / 2 - left), was / wide);
    windows.panBy((before - x) / 2 / scale.pxPerS);
  }
  fingers.set(pointer, x);
}

function useWheel({ stage, scale, windows }: Ground, wheelZooms: boolean): void {
  useEffect(() => {
    const element = stage.current;
    if (!element) return;
    const wheel = (event: WheelEvent): void => {
      const sideways = Math.abs(event.deltaX) > Math.abs(event.deltaY) || event.shiftKey;
      const along = event.deltaX !== 0 ? event.deltaX : event.deltaY;
      const left = element.getBoundingClientRect().left;
      if (sideways && !event.ctrlKey) windows.panBy(along / scale.pxPerS);
      else if (wheelZooms || event.ctrlKey) {
        // Pinching on a pad arrives as a wheel with the control key, in finer steps.
        const step = event.ctrlKey ? WHEEL_STEP * 5 : WHEEL_STEP;
        windows.zoomAbout(scale.at(event.clientX - left), Math.exp(event.deltaY * step));
      } else return;
      event.preventDefault();
    };
    element.addEventListener("wheel", wheel, { passive: false });
    return () => element.removeEventListener("wheel", wheel);
  }, [stage, scale, windows, wheelZooms]);
}

/** Strokes of fingers are the page's own: left to the browser their end may be a flick, and the next tap, anywhere, is taken to stop that. */
function useOwnStrokes(stage: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const element = stage.current;
    const refuse = (event: TouchEvent): void => event.preventDefault();
    element?.addEventListener("touchmove", refuse, { passive: false });
    return () => element?.removeEventListener("touchmove", refuse);
  }, [stage]);
}

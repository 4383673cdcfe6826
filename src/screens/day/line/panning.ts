import { type RefObject, useEffect, useMemo } from "react";
import type { TimeScale } from "../../../editor/index.ts";
import type { Windowing } from "../windowing.ts";

/** Empty ground is dragged to pan; two fingers on it pan and zoom; the wheel zooms about the pointer, sideways it pans. */
export interface Panning {
  press(event: PointerEvent): void;
  pinching(): boolean;
}

const WHEEL_STEP = 0.0016;

export function usePanning(
  stage: RefObject<HTMLElement | null>,
  scale: TimeScale,
  windows: Windowing,
  wheelZooms = true,
): Panning {
  const fingers = useMemo(() => new Map<number, number>(), []);

  useEffect(() => {
    const move = (event: PointerEvent): void => {
      const before = fingers.get(event.pointerId);
      if (before === undefined) return;
      const x = event.clientX;
      if (fingers.size === 1) {
        windows.panBy((before - x) / scale.pxPerS);
      } else {
        const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1] ?? x;
        const wide = Math.abs(x - other);
        const was = Math.abs(before - other);
        const left = stage.current?.getBoundingClientRect().left ?? 0;
        if (wide > 8 && was > 8) windows.zoomAbout(scale.at((x + other) / 2 - left), was / wide);
        windows.panBy((before - x) / 2 / scale.pxPerS);
      }
      fingers.set(event.pointerId, x);
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
  }, [fingers, scale, stage, windows]);

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
  }, [scale, stage, windows, wheelZooms]);

  useEffect(() => {
    const element = stage.current;
    // A stroke is the page's own: left to the browser its end may be a flick, and the next tap, anywhere, is taken to stop that.
    const refuse = (event: TouchEvent): void => event.preventDefault();
    element?.addEventListener("touchmove", refuse, { passive: false });
    return () => element?.removeEventListener("touchmove", refuse);
  }, [stage]);

  return useMemo(
    () => ({
      press: (event: PointerEvent) => void fingers.set(event.pointerId, event.clientX),
      pinching: () => fingers.size > 0,
    }),
    [fingers],
  );
}

// @vitest-environment jsdom
import { act } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { type TimeScale, timeScale } from "../../../../src/editor/index.ts";
import { useStandstill } from "../../../../src/screens/day/line/standstill.ts";

/** A scale of an hour from `startS` on. */
const from = (startS: number): TimeScale => timeScale({ startS, endS: startS + 3600 }, 1000);

let root: Root;
let stands: TimeScale | null = null;

function Line({ scale }: { readonly scale: TimeScale }) {
  stands = useStandstill(scale);
  return null;
}

const shown = (scale: TimeScale): void => act(() => root.render(<Line scale={scale} />));
const after = (ms: number): void => act(() => void vi.advanceTimersByTime(ms));
const pointer = (type: string, buttons: number): void =>
  void window.dispatchEvent(Object.assign(new MouseEvent(type, { buttons }), { pointerId: 1 }));

beforeEach(() => {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  vi.useFakeTimers();
  root = createRoot(document.createElement("div"));
  shown(from(0));
  after(2000);
});

afterEach(() => {
  act(() => root.unmount());
  vi.useRealTimers();
});

describe("the scale at which the window stands", () => {
  it("follows a jump at once", () => {
    const to = from(7200);
    shown(to);
    after(1);
    expect(stands).toBe(to);
  });

  it("does not follow a pointer that moves the window, however slowly, until it has let go", () => {
    const before = stands;
    pointer("pointerdown", 1);
    for (let i = 1; i <= 4; i += 1) {
      shown(from(i * 60));
      after(700);
      expect(stands).toBe(before);
    }
    const last = from(300);
    shown(last);
    pointer("pointerup", 0);
    after(200);
    expect(stands).toBe(last);
  });

  it("holds a pointer for let go that comes back without a button", () => {
    pointer("pointerdown", 1);
    const last = from(60);
    shown(last);
    pointer("pointermove", 0);
    after(200);
    expect(stands).toBe(last);
  });

  it("does not follow a wheel until it has stopped", () => {
    const before = stands;
    for (let i = 1; i <= 5; i += 1) {
      window.dispatchEvent(new WheelEvent("wheel"));
      shown(from(i * 60));
      after(120);
      expect(stands).toBe(before);
    }
    after(200);
    expect(stands?.window.startS).toBe(300);
  });

  it("follows a key that is kept down with its first step and where it comes to rest", () => {
    for (let i = 1; i <= 5; i += 1) {
      shown(from(i * 60));
      after(33);
      expect(stands?.window.startS).toBe(60);
    }
    after(200);
    expect(stands?.window.startS).toBe(300);
  });
});

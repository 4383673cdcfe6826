import { describe, expect, it } from "vitest";
import { windowing } from "../../src/screens/day/windowing.ts";
import { createViewStore } from "../../src/screens/viewstate.ts";
import { sessionWith } from "../session/bench.ts";

const WIDE_PX = 1200;
/** CSS pixels of a centimetre: 96 an inch (CSS Values and Units, absolute lengths). */
const CENTIMETRE_PX = 96 / 2.54;

function lay() {
  const { session } = sessionWith();
  const view = createViewStore("light");
  const windows = windowing(
    view,
    () => session.state.getState().plan,
    () => session.state.getState().verdict,
    () => WIDE_PX,
  );
  const secondsACentimetre = (): number => {
    const { startS, endS } = view.getState().window;
    return ((endS - startS) / WIDE_PX) * CENTIMETRE_PX;
  };
  const { lengthS } = session.state.getState().plan.stay;
  return { view, windows, secondsACentimetre, lengthS };
}

describe("the shown part of the stay", () => {
  it("goes from the whole stay to less than a minute a centimetre in small steps, and back", () => {
    const { view, windows, secondsACentimetre, lengthS } = lay();
    windows.whole();
    expect(view.getState().window.startS).toBeLessThanOrEqual(0);
    expect(view.getState().window.endS).toBeGreaterThanOrEqual(lengthS);
    let steps = 0;
    for (; secondsACentimetre() > 60 && steps < 100; steps += 1) windows.zoomAbout(7200, 0.85);
    expect(steps).toBeLessThan(40);
    const { startS, endS } = view.getState().window;
    expect(startS).toBeLessThan(7200);
    expect(endS).toBeGreaterThan(7200);
    for (let i = 0; i < steps; i += 1) windows.zoomAbout(7200, 1 / 0.85);
    expect(view.getState().window.endS - view.getState().window.startS).toBeGreaterThanOrEqual(lengthS);
  });

  it("shows a minute a centimetre at one go", () => {
    const { windows, secondsACentimetre } = lay();
    windows.whole();
    windows.centimetre(7200);
    expect(secondsACentimetre()).toBeCloseTo(60, 6);
  });
});

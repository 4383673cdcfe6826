import { describe, expect, it } from "vitest";
import { windowing, windowOnceOut } from "../../src/screens/day/windowing.ts";
import { createViewStore } from "../../src/screens/viewstate.ts";
import { check } from "../../src/check/index.ts";
import { sessionWith } from "../session/bench.ts";
import { at, eva, task, tinyPlan } from "../check/tinyPlan.ts";

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

describe("a day that comes on to an empty line", () => {
  const tasks = [task("x", "a"), task("y", "a")];
  const evas = [eva("eva-1"), eva("eva-2", { earliestEgressS: 40_000, latestIngressS: 70_000 })];
  const day = (...placements: ReturnType<typeof at>[]) => {
    const plan = tinyPlan({ tasks, evas, placements });
    return { plan, verdict: check(plan) };
  };
  // 600 s of airlock work, 300 s to a, 600 s there, 300 s back, 600 s in: 2400 s out.
  const one = day(at("x", 3000));
  const wide = { startS: 0, endS: 36_000 };

  it("is shown as it is, where it would be lost in all the time there is for it", () => {
    const { startS, endS } = windowOnceOut(wide, day(), one);
    expect(startS).toBeLessThanOrEqual(2100);
    expect(endS).toBeGreaterThanOrEqual(4500);
    expect(endS - startS).toBeLessThan(3000);
  });

  it("leaves the window where it is filled, where two outings are shown, and where a day was there before", () => {
    const near = { startS: 1800, endS: 6000 };
    expect(windowOnceOut(near, day(), one)).toBe(near);
    const all = { startS: 0, endS: 72_000 };
    expect(windowOnceOut(all, day(), day(at("x", 3000), at("y", 45_000, ["ev1"], "eva-2")))).toBe(all);
    expect(windowOnceOut(wide, one, one)).toBe(wide);
    expect(windowOnceOut({ startS: 40_000, endS: 72_000 }, day(), one)).toEqual({
      startS: 40_000,
      endS: 72_000,
    });
  });
});

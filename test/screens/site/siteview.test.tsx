// @vitest-environment jsdom
import { readFileSync } from "node:fs";
import { act } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeAll, describe, expect, it } from "vitest";
import { siteGround, siteLight, siteRings, siteWalks } from "../../../src/engine/sitework.ts";
import { type SiteWork } from "../../../src/session/index.ts";
import { siteWork } from "../../../src/session/site.ts";
import { AppContext } from "../../../src/screens/context.ts";
import { createViewStore, keepMinute } from "../../../src/screens/viewstate.ts";
import type { Services } from "../../../src/screens/services.ts";
import { createSiteViewStore } from "../../../src/screens/site/siteviewstate.ts";
import { SiteView } from "../../../src/screens/site/siteview.tsx";
import { sessionWith } from "../../session/bench.ts";
import { demoDay } from "../../solver/question/late/demoDay.ts";

beforeAll(() => {
  Object.assign(globalThis, {
    IS_REACT_ACT_ENVIRONMENT: true,
    ResizeObserver: class {
      observe(): void {}
      disconnect(): void {}
    },
  });
  Element.prototype.scrollIntoView = () => undefined;
  HTMLCanvasElement.prototype.getContext = () => null;
  Object.assign(globalThis, {
    OffscreenCanvas: class {
      getContext = () => null;
    },
  });
  Object.defineProperty(HTMLElement.prototype, "clientWidth", { value: 900, configurable: true });
  Object.defineProperty(HTMLElement.prototype, "clientHeight", { value: 600, configurable: true });
});

let root: Root | null = null;
afterEach(() => {
  act(() => root?.unmount());
  document.body.replaceChildren();
});

const demoText = (): string => {
  const plan = JSON.parse(readFileSync("public/plans/demo.json", "utf8")) as object;
  return JSON.stringify({ ...plan, schedule: demoDay });
};

async function show(text: string, more: Partial<SiteWork> = {}) {
  const { session, engine } = sessionWith();
  session.open(text);
  const asked: string[] = [];
  const answer = async <T,>(what: string, made: T): Promise<T> => {
    asked.push(what);
    return made;
  };
  const site: SiteWork = {
    ...siteWork(session, engine),
    ground: (plan) => answer("ground", siteGround(plan)),
    light: (plan, atS) => answer("light", siteLight(plan, atS)),
    rings: (plan, left) => answer("rings", siteRings(plan, left)),
    walks: (plan) => answer("walks", siteWalks(plan, plan.schedule)),
    ...more,
  };
  const view = createViewStore("light");
  const stop = keepMinute(view);
  const siteView = createSiteViewStore();
  const services = { session, memory: { get: () => null, set: () => undefined } } as unknown as Services;
  const host = document.createElement("div");
  document.body.append(host);
  root = createRoot(host);
  await act(async () =>
    root?.render(
      <AppContext value={{ ...services, view }}>
        <SiteView site={site} siteView={siteView} />
      </AppContext>,
    ),
  );
  await act(async () => undefined);
  return { session, view, siteView, asked, stop };
}

const text = () => document.body.textContent ?? "";
const rowOf = (name: string) =>
  [...document.querySelectorAll("tbody tr")].find((one) => one.textContent?.startsWith(name));
const press = (key: string, more: KeyboardEventInit = {}) =>
  act(async () => {
    document
      .querySelector(".map-stage")!
      .dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more }));
  });

describe("the site view", () => {
  it("says beside the map what the map shows: every place, its distance, bearing, way home and light", async () => {
    await show(demoText());
    expect(document.querySelectorAll("tbody tr")).toHaveLength(21);
    expect(rowOf("Osier, far lip")?.textContent).toMatch(/1\.59 km, 048°34 min(lit|shadow)/);
    expect(rowOf("Lander Dunnock")?.textContent).toContain("here");
    expect(text()).toContain("A walk-back shown is never rounded down.");
    expect(text()).toContain("36 min: emergency oxygen");
    expect(text()).not.toContain("a value that nobody gave");
    expect(text()).toContain("EV1, solid");
    expect(text()).toContain("EV2, dashed");
  });

  it("says of the emergency limit that nobody has given what it comes from", async () => {
    const plan = JSON.parse(demoText()) as { suits: object[] };
    const suits = plan.suits.map((suit) => ({ ...suit, toGive: ["emergencyOxygenS"] }));
    await show(JSON.stringify({ ...plan, suits }));
    expect(text()).toContain("until then these limits come from a value that nobody gave");
  });

  it("says of what it does not know yet that it is being worked out, and nothing of it", async () => {
    const never = <T,>(): Promise<T> => new Promise(() => undefined);
    const { view } = await show(demoText(), { ground: never, light: never, rings: never, walks: never });
    // Both are out then.
    act(() => view.setState({ cursorS: 8400 }));
    const layers = document.querySelector(".site-layers")!.textContent;
    expect(layers).not.toMatch(/no height grid|Nobody is/);
    expect(layers?.match(/being worked out…/g)).toHaveLength(4);
    expect(document.querySelector(".site-where")?.textContent).toBe("who is where is being worked out…");
    expect(document.querySelector('[type="range"]')?.getAttribute("aria-valuetext")).not.toContain("inside");
  });

  it("chooses a place and its placed tasks on the day line, and follows a task chosen elsewhere", async () => {
    const { session, siteView } = await show(demoText());
    await act(async () => rowOf("Pebble Row")?.querySelector("button")?.click());
    expect(siteView.getState().place).toBe("pebble-row");
    expect(session.state.getState().selection).toEqual(
      expect.arrayContaining(["pebble-cores", "pebble-documented"]),
    );
    await act(async () => session.select(["cowl-crest-samples"]));
    expect(siteView.getState().place).toBe("cowl-crest");
    // The crest stands over the lander; by which heights the sun reaches it is said with when.
    const said = document.querySelector(".site-chosen")!.textContent;
    expect(said).toMatch(/of the lander, \d+ m above its ground\./);
    expect(said).toMatch(/By the plan’s heights .* Hills beyond the plan’s heights are not known\./);
  });

  it("keeps the minute that was pointed at on the day line, and moves it by keys", async () => {
    const { view } = await show(demoText());
    act(() => view.setState({ cursorS: 59_437 }));
    act(() => view.setState({ cursorS: null }));
    expect(document.querySelector(".site-minute b")?.textContent).toBe("16:31");
    await press(",");
    expect(view.getState()).toMatchObject({ cursorS: 59_400, minuteS: 59_400 });
    await press(">", { shiftKey: true });
    expect(view.getState().minuteS).toBe(60_000);
    const slider = document.querySelector<HTMLInputElement>('input[type="range"]')!;
    expect(slider.getAttribute("aria-valuetext")).toMatch(/^16:40; EV1 .+; EV2 .+/);
  });

  it("moves a place by arrows with the day's cost in sight, as one step", async () => {
    const { session, siteView } = await show(demoText());
    const steps = session.state.getState().history.undo.length;
    await act(async () => rowOf("Pebble Row")?.querySelector("button")?.click());
    await press("Enter");
    for (let k = 0; k < 5; k += 1) await press("ArrowUp");
    await press("ArrowLeft", { shiftKey: true });
    await act(async () => undefined);
    expect(document.querySelector(".site-move")?.textContent).toMatch(/Pebble Rowwalk back \d+ minwalked/);
    expect(session.state.getState().history.undo).toHaveLength(steps);
    await press("Enter");
    expect(siteView.getState().moving).toBeNull();
    const moved = session.state.getState().plan.site.places.find((one) => one.id === "pebble-row");
    expect(moved).toMatchObject({ eastM: 319, northM: 260 });
    expect(session.state.getState().history.undo).toHaveLength(steps + 1);
  });

  it("puts a place in hand back with Escape, and never takes the lander", async () => {
    const { session, siteView } = await show(demoText());
    const before = session.state.getState().plan;
    await act(async () => rowOf("Anvil Block")?.querySelector("button")?.click());
    await press("Enter");
    await press("ArrowRight");
    await press("Escape");
    expect(siteView.getState().moving).toBeNull();
    await act(async () => rowOf("Lander Dunnock")?.querySelector("button")?.click());
    await press("Enter");
    expect(siteView.getState().moving).toBeNull();
    expect(session.state.getState().plan).toBe(before);
  });

  it("says where a plan has no ground that ways are straight and limits level", async () => {
    const small = readFileSync("public/plans/small.json", "utf8");
    await show(small);
    expect(text()).toContain("the plan has no height grid: ways are straight lines");
    expect(text()).toContain("Over level, open ground: slopes and keep-outs are not counted.");
    expect(text()).toContain("nobody goes out on this day");
  });
});

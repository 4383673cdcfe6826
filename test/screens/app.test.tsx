// @vitest-environment jsdom
import { act } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { App } from "../../src/screens/app.tsx";
import type { PrintedDay } from "../../src/answers/index.ts";
import { createViewStore } from "../../src/screens/viewstate.ts";
import { PaperView } from "../../src/screens/paper/paperview.tsx";
import type { PaperPort, Services } from "../../src/screens/services.ts";
import { sessionWith } from "../session/bench.ts";

beforeAll(() => {
  Object.assign(globalThis, {
    IS_REACT_ACT_ENVIRONMENT: true,
    ResizeObserver: class {
      observe(): void {}
      disconnect(): void {}
    },
  });
  // The test document has no list of sheets made by code.
  Object.assign(document, { adoptedStyleSheets: [] });
  HTMLCanvasElement.prototype.getContext = () => null;
  Object.defineProperty(HTMLElement.prototype, "clientWidth", { value: 1400, configurable: true });
  Object.defineProperty(HTMLElement.prototype, "clientHeight", { value: 600, configurable: true });
  HTMLDialogElement.prototype.showModal = function () {
    this.setAttribute("open", "");
  };
  HTMLDialogElement.prototype.close = function () {
    this.removeAttribute("open");
    this.dispatchEvent(new Event("close"));
  };
});

let root: Root | null = null;
afterEach(() => {
  act(() => root?.unmount());
  document.body.replaceChildren();
});

const NOTHING_PRINTED: PrintedDay = {
  egressS: new Map(),
  ingressS: new Map(),
  limit: new Map(),
  leaves: new Map(),
  rests: [],
};

const PAPER: PaperPort = {
  kinds: [{ id: "cuff", name: "Cuff", purpose: "One task a page.", sizes: ["cuff"] }],
  site: () => new Promise(() => undefined),
  pages: () => [{ svg: "<svg><title>Page one</title></svg>", widthMm: 98, heightMm: 132, name: "one" }],
  doubts: () => [],
  pdf: (_, { plan }) => Promise.resolve({ bytes: new Uint8Array(), plan }),
};

async function show() {
  const { session, engine } = sessionWith();
  const kept = new Map<string, string>();
  const services: Services = {
    session,
    sunDeg: () => 7,
    walkS: () => () => 0,
    memory: { get: (key) => kept.get(key) ?? null, set: (key, value) => kept.set(key, value).has(key) },
  };
  const view = createViewStore("light");
  const host = document.createElement("div");
  document.body.append(host);
  root = createRoot(host);
  // The theme is read a turn after it is set.
  await act(async () =>
    root?.render(
      <App
        services={services}
        view={view}
        setup={<p>Tables</p>}
        rehearsal={<p />}
        site={<p>Map</p>}
        paper={<PaperView paper={PAPER} />}
        details={<p>Details</p>}
        map={<p>Map</p>}
      />,
    ),
  );
  return { session, engine, view, kept };
}

const text = () => document.body.textContent ?? "";
const block = (task: string) => document.querySelector<HTMLButtonElement>(`.block[data-task="${task}"]`);
const press = (target: EventTarget, key: string, more: KeyboardEventInit = {}) =>
  act(() => void target.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, ...more })));
const click = (name: string) =>
  act(async () =>
    [...document.querySelectorAll("button")].find((one) => one.textContent?.trim().startsWith(name))?.click(),
  );

describe("the app", () => {
  it("says on every screen that it is a planning and training aid", async () => {
    const { view } = await show();
    for (const screen of ["day", "site", "setup", "paper"] as const) {
      act(() => view.setState({ screen }));
      expect(text()).toContain("Planning and training aid.");
      expect(text()).toContain("flight surgeon");
    }
  });

  it("gives every placed task a named button and every other one a card on the bench", async () => {
    await show();
    expect(block("one")?.getAttribute("aria-label")).toBe(
      "Task one, sampling, at Ridge, 2:00 to 2:15, EV1, EVA 1",
    );
    const cards = [...document.querySelectorAll(".card-name")].map((one) => one.textContent);
    expect(cards).toEqual(["3 Task three", "2 Task two"]);
  });

  it("says how many tasks are selected when it is none or several", async () => {
    const { session, view } = await show();
    act(() => session.select(["one", "two", "three"]));
    expect(view.getState().spoken).toBe("3 tasks selected.");
    act(() => session.select(["one"]));
    expect(view.getState().spoken).toBe("3 tasks selected.");
    act(() => session.select([]));
    expect(view.getState().spoken).toBe("Nothing selected.");
    // A step says what it did, and not what it selects.
    act(() => void session.splitTask("one", 300));
    expect(session.state.getState().selection).toHaveLength(2);
    expect(view.getState().spoken).toMatch(/^Done: Split Task one\./);
  });

  it("shows what a held task costs, in score and findings, before it is set down", async () => {
    const { session } = await show();
    press(block("one")!, "Enter");
    for (let i = 0; i < 10; i += 1) press(block("one")!, "ArrowLeft", { shiftKey: true });
    expect(session.state.getState().preview).not.toBeNull();
    const score = document.querySelector('[aria-label="breaches"], [aria-label="breach"]');
    expect(score?.textContent).toContain("breach");
    expect(score?.textContent).toContain("worse");
    // The list is made anew ten times a second at most.
    await act(() => new Promise((done) => setTimeout(done, 150)));
    expect(document.querySelector(".rule-row.breach.fresh")?.textContent).toContain("EVA 1");
    press(block("one")!, "Escape");
    expect(document.querySelector(".rule-row.breach")).toBeNull();
    expect(document.querySelector(".cost")).toBeNull();
  });

  it("undoes and redoes by key and names the step", async () => {
    const { session } = await show();
    press(block("one")!, "b");
    expect(block("one")).toBeNull();
    expect(text()).toContain("Bench Task one");
    press(document.body, "z", { ctrlKey: true });
    expect(block("one")).not.toBeNull();
    press(document.body, "z", { ctrlKey: true, shiftKey: true });
    expect(session.state.getState().plan.schedule.placements).toHaveLength(0);
  });

  it("says where it is read why a key does nothing, and why a drag of what is pinned is refused", async () => {
    const { view } = await show();
    const said = () => document.querySelector(".readout")?.textContent;
    press(document.body, "z", { ctrlKey: true });
    expect(said()).toContain("Nothing to undo.");
    press(block("one")!, "p");
    press(block("one")!, "Enter");
    expect(said()).toContain("Pinned: press P to unpin it first.");
    expect(view.getState().spoken).toContain("Pinned");
  });

  it("pins and unpins by key", async () => {
    await show();
    press(block("one")!, "p");
    expect(block("one")?.getAttribute("aria-label")).toContain("pinned");
    press(block("one")!, "p");
    expect(block("one")?.getAttribute("aria-label")).not.toContain("pinned");
  });

  it("lists the faults of a refused file and keeps the plan", async () => {
    const { session } = await show();
    const { plan } = session.state.getState();
    act(() => void session.open("{}", "bad.json"));
    expect(document.querySelector("dialog.shell-refused")?.textContent).toContain("bad.json was not opened");
    expect(session.state.getState().plan).toBe(plan);
    await click("Close");
    expect(document.querySelector("dialog.shell-refused")).toBeNull();
  });

  it("says of a file that is no plan at all what a plan is, and of a spoilt plan its faults alone", async () => {
    const { session } = await show();
    const refused = (): string => document.querySelector("dialog.shell-refused")?.textContent ?? "";
    act(() => void session.open("{}", "list.json"));
    expect(refused()).toContain("Nothing in it says that it is a plan.");
    const { format, version } = session.state.getState().plan;
    act(() => void session.open(JSON.stringify({ format, version }), "spoilt.json"));
    expect(refused()).toContain("spoilt.json was not opened");
    expect(refused()).not.toContain("Nothing in it");
  });

  it("counts no breaches where nothing is there to be judged", async () => {
    const { session } = await show();
    const breaches = (): string => document.querySelector('[aria-label="breaches"]')?.textContent ?? "";
    expect(breaches()).toMatch(/^\d/);
    await act(async () => session.newPlan());
    expect(breaches()).toBe("–nothing to judge");
  });

  it("says whose the strips are where there is one for each consumable", async () => {
    const { session, view } = await show();
    await act(async () => view.setState({ margins: "all" }));
    const rows = [...document.querySelectorAll(".margin-rows > li")];
    const heads = rows.filter((row) => row.matches(".margin-head"));
    expect(heads.map((row) => row.textContent)).toEqual(
      session.state.getState().plan.crew.map(({ name }) => name),
    );
    for (const head of heads) expect(rows[rows.indexOf(head) + 1]?.textContent).toMatch(/^Oxygen/);
  });

  it("remembers the theme", async () => {
    const { kept } = await show();
    for (const [name, theme] of [
      ["Dark room", "dim"],
      ["Dark", "dark"],
      ["Light", "light"],
    ] as const) {
      await click("?");
      await click(name);
      expect(document.documentElement.dataset["theme"]).toBe(theme);
      expect(kept.get("theme")).toBe(theme);
    }
  });

  it("shows the pages that will be printed", async () => {
    const rules = vi.spyOn(CSSStyleSheet.prototype, "replaceSync");
    const { engine } = await show();
    await click("Paper");
    expect(document.querySelectorAll(".paper-page")).toHaveLength(0);
    await act(async () => engine.prints[0]?.answer(NOTHING_PRINTED));
    expect(document.querySelectorAll(".paper-page")).toHaveLength(1);
    // The test document drops the size of a page when it reads the rule back.
    expect(rules.mock.calls.flat().join()).toContain("size: 98mm 132mm");
    expect(document.adoptedStyleSheets).toHaveLength(1);
  });
});

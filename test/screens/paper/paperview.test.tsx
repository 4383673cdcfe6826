// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import type { PrintedDay } from "../../../src/answers/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import type { PaperPort } from "../../../src/screens/services.ts";
import { PaperView } from "../../../src/screens/paper/paperview.tsx";
import { lateReport } from "../../session/answers.ts";
import { button, click, setStage, show } from "../setup/stage.tsx";

setStage();

const text = () => document.body.textContent ?? "";

/** Paper with a kind that has late pages and one that has none; pages say whether the table was there. */
const paper: PaperPort = {
  kinds: [
    { id: "cuff", name: "Cuff", purpose: "One task a page.", sizes: ["cuff", "a4"], late: true, cut: true },
    { id: "day", name: "Day", purpose: "One sheet.", sizes: ["a4", "letter"] },
  ],
  site: () => new Promise(() => undefined),
  pages: ({ size, duplex, order, holes }, { lateTable }) =>
    ["one", "two"].slice(0, duplex ? 2 : 1).map((name) => ({
      svg: `<svg><text>${lateTable ? "with table" : "no table"} ${name} ${size} ${order} ${holes ? "holes" : "whole"}</text></svg>`,
      widthMm: 98,
      heightMm: 132,
      name,
    })),
  doubts: ({ tasks }) => [
    {
      words: "no steps for 1 task",
      tasks: tasks.slice(0, 1).map(({ id }) => id),
      at: { screen: "setup", page: "tasks" },
    },
    { words: "chances not worked out", tasks: [], at: { screen: "odds" } },
  ],
  pdf: (_, { plan }) => Promise.resolve({ bytes: new Uint8Array(), plan }),
};

const DAY: PrintedDay = {
  egressS: new Map(),
  ingressS: new Map(),
  limit: new Map(),
  leaves: new Map(),
  rests: [],
};

/** The screen with what is printed worked out. */
async function showTested() {
  const shown = show(<PaperView paper={paper} />);
  await act(async () => shown.engine.prints[0]!.answer(DAY));
  return shown;
}

const held = () =>
  ["Print", "Save as PDF"].map((name) => button(name).getAttribute("aria-disabled") === "true");
const withoutLate = () =>
  [...document.querySelectorAll("button")].some((one) => one.textContent === "Without late pages");

describe("printing while the late pages are worked out", () => {
  it("is held until they are there", async () => {
    const { engine } = await showTested();
    expect(text()).toContain("no table");
    expect(held()).toEqual([true, true]);
    await act(async () => engine.lateTables[0]!.answer(lateReport()));
    expect(text()).toContain("with table");
    expect(held()).toEqual([false, false]);
    expect(withoutLate()).toBe(false);
  });

  it("is let go without them by whoever asks for that", async () => {
    await showTested();
    click(button("Without late pages"));
    expect(held()).toEqual([false, false]);
    expect(text()).toContain("no table");
  });

  it("waits for nothing where there are none", async () => {
    await showTested();
    click(button("Day"));
    expect(held()).toEqual([false, false]);
  });
});

describe("what the judge has not tested", () => {
  it("is not there to be printed: a word says how far he is", async () => {
    const { session, engine } = show(<PaperView paper={paper} />);
    click(button("Day"));
    expect(text()).not.toContain("no table");
    expect(held()).toEqual([true, true]);
    act(() => engine.prints[0]!.report({ walks: 3, of: 40 }));
    expect(text()).toContain("The judge is testing the moments that are printed: 3 of 40 walks…");
    await act(async () => engine.prints[0]!.answer(DAY));
    expect(held()).toEqual([false, false]);
    expect(text()).toContain("no table");
    // Another day is tested anew.
    act(() => void session.edit("Other name", () => ({ title: "Other name" })));
    expect(held()).toEqual([true, true]);
    await act(async () => engine.prints[1]!.answer(DAY));
    expect(held()).toEqual([false, false]);
  });

  it("is said where it could not be worked out, and asked again by who wants that", async () => {
    const { engine } = show(<PaperView paper={paper} />);
    await act(async () => engine.prints[0]!.fail("out of memory"));
    expect(text()).toContain("What is printed could not be worked out: out of memory");
    click(button("Try again"));
    expect(engine.prints).toHaveLength(2);
  });
});

describe("starts off the grid", () => {
  const onGrid = () =>
    [...document.querySelectorAll("button")].find((one) => one.textContent === "Put on whole minutes");

  it("are put on it by a button, which is there only for them", () => {
    const { session, engine } = show(<PaperView paper={paper} />);
    expect(onGrid()).toBeUndefined();
    const [first, ...rest] = session.state.getState().plan.schedule.placements;
    act(() =>
      session.reschedule("Off", { placements: [{ ...first!, startS: instant(first!.startS + 7) }, ...rest] }),
    );
    click(onGrid()!);
    expect(engine.grids).toHaveLength(1);
  });
});

describe("the check before print", () => {
  const shownPlan = () => show(<PaperView paper={paper} />);

  it("is a line that opens to what there is to know, each with a way to where it is mended", async () => {
    const { session, view } = shownPlan();
    expect(document.querySelector(".paper-doubts summary")?.textContent).toBe(
      "Before print: 2 things to know",
    );
    const [task] = session.state.getState().plan.tasks;
    expect(text()).toContain(task!.name);
    click(button("no steps for 1 task"));
    expect(view.getState().screen).toBe("setup");
    expect(view.getState().setupPage).toBe("tasks");
    expect(session.state.getState().selection).toEqual([task!.id]);
    click(button("chances not worked out"));
    expect(view.getState().screen).toBe("odds");
  });
});

describe("the print window", () => {
  const choose = (words: string): void => {
    const label = [...document.querySelectorAll("label")].find((one) => one.textContent?.includes(words));
    if (!label) throw new Error(`there is no choice "${words}"`);
    act(() => label.querySelector("input")!.click());
  };
  const picture = (): string => document.querySelector(".print-picture")?.textContent ?? "";

  it("shows the first sheet as it will be printed, on the paper, sides, order and holes chosen", async () => {
    const { engine } = await showTested();
    await act(async () => engine.lateTables[0]!.answer(lateReport()));
    click(button("Print"));
    expect(picture()).toContain("one cuff stack whole");
    choose("A4");
    expect(picture()).toContain("one a4 stack whole");
    choose("Both, turned over");
    expect(picture()).toContain("two a4 stack whole");
    expect(picture()).toContain("Front");
    choose("Pages in order");
    choose("Crosses for the rings");
    expect(picture()).toContain("two a4 reading holes");
    // What the screen shows, and what is printed, are the same pages.
    expect(document.querySelector(".paper-pages")?.textContent).toContain("two a4 reading holes");
    expect(text()).toContain("1 sheet of paper.");
  });

  it("keeps the paper of one kind apart from that of another", async () => {
    await showTested();
    click(button("A4"));
    click(button("Day"));
    click(button("Letter"));
    expect(document.querySelector(".paper-pages")?.textContent).toContain("one letter");
    click(button("Cuff"));
    expect(document.querySelector(".paper-pages")?.textContent).toContain("one a4");
  });

  it("prints what it shows", async () => {
    const { engine } = await showTested();
    await act(async () => engine.lateTables[0]!.answer(lateReport()));
    let printed = 0;
    window.print = () => void (printed += 1);
    click(button("Print"));
    click(button("Print these pages"));
    expect(printed).toBe(1);
  });
});

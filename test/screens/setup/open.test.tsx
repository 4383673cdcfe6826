// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import { keepDraft, keptIn, takeUpDrafts } from "../../../src/screens/kept.ts";
import { createViewStore } from "../../../src/screens/viewstate.ts";
import { Setup } from "../../../src/screens/setup/setup.tsx";
import { OpenCells } from "../../../src/screens/shell/opencells.tsx";
import { button, click, goTo, here, press, setStage, show, write } from "./stage.tsx";

setStage();

const both = (
  <>
    <OpenCells />
    <Setup />
  </>
);
const strip = (): HTMLElement | null => document.querySelector('[aria-label="open in setup"]');
const row = (table: string): HTMLElement =>
  document.querySelector<HTMLElement>(`[data-table="${table}"] tbody tr`)!;

describe("what is open in setup", () => {
  it("is counted in the strip too, with the reason in hours and minutes, and the strip leads there", () => {
    const { session, view } = show(both, (fresh) =>
      fresh.edit("Meal", ({ stay }) => ({
        stay: {
          ...stay,
          blocks: [
            { id: "meal", name: "Meal", kind: "meal", crew: [], startS: instant(3600), endS: instant(5400) },
          ],
        },
      })),
    );
    expect(strip()).toBeNull();
    click(button("Stay"));
    goTo(row("blocks").children[2] as HTMLElement);
    press("Enter");
    write("2:00");
    press("Tab");
    press("Escape");
    expect(strip()?.textContent).toBe("1refused");
    const why = strip()!.querySelector("button")!.title;
    expect(why).toMatch(/^Begin of Meal: .*\.$/);
    expect(why).not.toMatch(/\d{3,} s/);
    expect(button("Stay").querySelector(".setup-kept")?.textContent).toBe("1 refused");
    click(button("Links"));
    act(() => view.setState({ screen: "day" }));
    click(strip()!.querySelector("button")!);
    expect(view.getState().screen).toBe("setup");
    expect(here()).toBe(row("blocks").children[2]);
    // With its end the begin goes in.
    goTo(row("blocks").children[3] as HTMLElement);
    press("Enter");
    write("2:30");
    press("Enter");
    expect(session.state.getState().plan.stay.blocks[0]).toMatchObject({ startS: 7200, endS: 9000 });
    expect(strip()).toBeNull();
  });

  it("judges begin and end as a pair in the form beside the row too", () => {
    const { session } = show(both);
    click(button("Form"));
    goTo(row("tasks").children[0] as HTMLElement);
    const field = (name: string): HTMLElement => button(`${name} of Task one`);
    const named = (name: string): HTMLElement =>
      [...document.querySelectorAll<HTMLElement>(".row-form button")].find((one) =>
        one.getAttribute("aria-label")?.startsWith(`${name} of Task one`),
      )!;
    expect(field("Likely")).toBeDefined();
    click(named("Low"));
    write("0:20");
    press("Tab", { shiftKey: true });
    expect(strip()?.textContent).toBe("1refused");
    // Shift and Tab have opened the likely duration.
    expect(here().getAttribute("aria-label")).toBe("Likely of Task one, h:mm");
    write("0:40");
    press("Enter");
    expect(session.state.getState().plan.tasks[0]!.duration).toMatchObject({ lowS: 1200, likelyS: 2400 });
    expect(strip()).toBeNull();
  });

  it("names what is to be given, until it is, and leads to it", () => {
    const { session } = show(both);
    click(button("Gear"));
    click(button("Add container"));
    press("Escape");
    expect(strip()?.textContent).toBe("3to be given");
    click(button("Links"));
    click(strip()!.querySelector("button")!);
    expect(here()).toBe(row("containers").children[1]);
    expect(here().textContent).toBe("to be givenuntil then 5 kg");
    act(() => void session.undo());
    expect(strip()).toBeNull();
  });

  it("goes with the row that it stands in", () => {
    const { view } = show(both);
    goTo(row("tasks").children[3] as HTMLElement);
    press("Enter");
    write("-3");
    press("Tab");
    press("Escape");
    expect(view.getState().keptCells?.drafts.size).toBe(1);
    click(button("Remove Task one"));
    click(button("Remove all of this"));
    expect(view.getState().keptCells?.drafts.size).toBe(0);
    expect(strip()).toBeNull();
  });
});

describe("drafts", () => {
  const cell = { label: "Worth of Task one", draft: "-3", fault: "At least 0 points." };
  const memoryWith = (text: string | null) => {
    const kept = new Map<string, string>(text === null ? [] : [["setup-refused", text]]);
    return {
      get: (key: string) => kept.get(key) ?? null,
      set: (key: string, value: string) => kept.set(key, value).has(key),
    };
  };

  it("are there again when the program is opened again, for the same plan only", () => {
    const memory = memoryWith(null);
    keepDraft({ view: createViewStore("light"), memory }, "slot-1", "tasks/one/3", cell);
    const view = createViewStore("light");
    takeUpDrafts({ view, memory });
    expect([...keptIn(view.getState().keptCells, "slot-1")]).toEqual([["tasks/one/3", cell]]);
    expect(keptIn(view.getState().keptCells, "slot-2").size).toBe(0);
  });

  it("are nothing where the memory holds something else", () => {
    for (const text of [
      "",
      "{",
      "3",
      '{"slot":"a","drafts":[["x",{"draft":1}]]}',
      '{"slot":"a","drafts":7}',
    ]) {
      const view = createViewStore("light");
      takeUpDrafts({ view, memory: memoryWith(text) });
      expect(view.getState().keptCells).toBeNull();
    }
  });
});

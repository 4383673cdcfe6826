// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import { taskTable } from "../../../src/screens/fields/tasks.ts";
import { Setup } from "../../../src/screens/setup/setup.tsx";
import { button, cell, click, goTo, here, press, setStage, show, write } from "./stage.tsx";

setStage();

/** Columns of the tasks' table. */
const WORTH = 3;
const LIKELY = 4;
const TASK_COLUMNS = taskTable.columns.map((column) => column.label);

describe("a setup table", () => {
  it("takes what is written as one named step, and shows what undo brings back", () => {
    const { session } = show(<Setup />);
    const steps = session.state.getState().history.undo.length;
    goTo(cell(1, WORTH));
    press("Enter");
    write("25");
    press("Enter");
    expect(session.state.getState().plan.tasks[1]!.worth).toBe(25);
    expect(session.state.getState().history.undo).toHaveLength(steps + 1);
    expect(session.state.getState().history.undo.at(-1)?.name).toBe("Change worth of Task two");
    expect(here()).toBe(cell(2, WORTH));
    goTo(document.body);
    act(() => void session.undo());
    expect(session.state.getState().plan.tasks[1]!.worth).toBe(10);
  });

  it("begins to write with a typed character", () => {
    show(<Setup />);
    goTo(cell(0, WORTH));
    press("7");
    expect(here()).toBeInstanceOf(HTMLInputElement);
    expect((here() as HTMLInputElement).value).toBe("7");
  });

  it("lets nothing faulty into the plan, says why while it is written, and Escape restores", () => {
    const { session } = show(<Setup />);
    const { plan } = session.state.getState();
    goTo(cell(0, WORTH));
    press("Enter");
    write("-3");
    expect(document.querySelector('[role="alert"].cell-fault')?.textContent).toBe("At least 0 points.");
    expect(here().getAttribute("aria-invalid")).toBe("true");
    press("Enter");
    expect(here()).toBeInstanceOf(HTMLInputElement);
    expect(session.state.getState().plan).toBe(plan);
    press("Escape");
    expect(cell(0, WORTH).textContent).toBe("10");
    expect(here()).toBe(cell(0, WORTH));
  });

  it("leaves a refused cell with Tab; it stays red, is counted on the page list, and is there after another page", () => {
    const { session } = show(<Setup />);
    const { plan } = session.state.getState();
    goTo(cell(0, WORTH));
    press("Enter");
    write("-3");
    press("Tab");
    expect(here().getAttribute("aria-label")).toBe("Likely of Task one, h:mm");
    press("Escape");
    expect(cell(0, WORTH).textContent).toContain("At least 0 points.");
    expect(button("Tasks").querySelector(".setup-kept")?.textContent).toBe("1 refused");
    click(button("Links"));
    click(button("Tasks"));
    expect(cell(0, WORTH).getAttribute("aria-invalid")).toBe("true");
    expect(session.state.getState().plan).toBe(plan);
    goTo(cell(0, WORTH));
    press("Escape");
    expect(cell(0, WORTH).textContent).toBe("10");
    expect(document.querySelector(".setup-kept")).toBeNull();
  });

  it("asks for what matters of a new row and nobody has given, and counts it until it is given", () => {
    const { session } = show(<Setup />);
    click(button("Gear"));
    click(button("Add container"));
    press("Escape");
    const row = document.querySelector('[data-table="containers"] tbody tr')!;
    const capacity = row.children[2] as HTMLElement;
    expect(capacity.textContent).toBe("to be givenuntil then 15 kg");
    const counted = (): string | undefined =>
      button("Gear").querySelector(".setup-to-give")?.textContent ?? undefined;
    expect(counted()).toBe("3 to give");
    goTo(capacity);
    press("Enter");
    write("18");
    press("Enter");
    expect(session.state.getState().plan.containers[0]?.capacityKg).toBe(18);
    expect(counted()).toBe("2 to give");
    // Given another way than in its cell it is asked for no more.
    act(
      () =>
        void session.edit("Given", ({ containers }) => ({
          containers: containers.map((one) => ({ ...one, volumeL: 31 })),
        })),
    );
    expect(counted()).toBe("1 to give");
    // What the plan goes on with is given by writing it: 5 kg.
    goTo(row.children[1] as HTMLElement);
    press("Enter");
    expect((here() as HTMLInputElement).value).toBe("");
    press("Enter");
    expect(counted()).toBe("1 to give");
    press("ArrowUp");
    press("Enter");
    write("5");
    press("Enter");
    expect(session.state.getState().plan.containers[0]).not.toHaveProperty("toGive");
    expect(counted()).toBeUndefined();
    act(() => void session.undo());
    expect(counted()).toBe("1 to give");
  });

  it("counts what rows lack, and shows those alone that lack it", () => {
    show(<Setup />);
    const missing = document.querySelector('[aria-label="What is missing or in doubt"]')!;
    const steps = [...missing.querySelectorAll("button")].find((one) => one.textContent === "3 no steps")!;
    click(steps);
    expect(document.querySelectorAll("tbody tr")).toHaveLength(3);
    // The first gets a step and is gone from those without.
    const column = TASK_COLUMNS.indexOf("Steps");
    goTo(cell(0, column));
    press("Enter");
    write("Look about");
    press("Enter", { ctrlKey: true });
    expect(document.querySelectorAll("tbody tr")).toHaveLength(2);
  });

  it("says at once of 25:00, taken as hours, that there is no time for it, in the row and over the table", () => {
    const { session } = show(<Setup />);
    goTo(cell(1, LIKELY));
    press("Enter");
    write("25:00");
    press("Enter");
    expect(session.state.getState().plan.tasks[1]!.duration.likelyS).toBe(25 * 3600);
    expect(cell(1, LIKELY).querySelector(".cell-fault")!.textContent).toMatch(/^Longer than the stay of /);
    const doubts = document.querySelector('[aria-label="What is missing or in doubt"]')!;
    expect(doubts.querySelector("button")!.textContent).toBe("1 longer than there is time for");
    act(() => void session.undo());
    expect(cell(1, LIKELY).querySelector(".cell-fault")).toBeNull();
  });

  it("shows sets of columns, the name always, and a form of the whole row beside them", () => {
    const { session } = show(<Setup />);
    click(button("Paper"));
    const heads = [...document.querySelectorAll("thead tr:last-child th")].map((one) => one.textContent);
    expect(heads).toEqual(["Name", "Number", "Cautions", "Steps", "Notes"]);
    click(button("Form"));
    goTo(cell(1, 0));
    const form = document.querySelector('[aria-label="All fields of Task two"]')!;
    // What is looked at stands first: paper's fields.
    expect([...form.querySelectorAll("h4")].slice(0, 3).map((one) => one.textContent)).toEqual([
      "Called",
      "Cuff checklist",
      "Request",
    ]);
    // From row to row without leaving the form, and what the row lacks.
    click(button("Next"));
    expect(document.querySelector(".row-form h3")?.textContent).toBe("Task three");
    expect(document.querySelector(".row-form header")?.textContent).toContain("3 of 3");
    click(button("Next"));
    expect(document.querySelector(".row-form h3")?.textContent).toBe("Task three");
    expect(document.querySelector(".row-form-lacks")?.textContent).toContain("no steps");
    click(button("Previous"));
    const worth = [...form.querySelectorAll("button")].find((one) =>
      one.getAttribute("aria-label")?.startsWith("Worth of Task two"),
    )!;
    click(worth);
    write("33");
    press("Enter");
    expect(session.state.getState().plan.tasks[1]!.worth).toBe(33);
  });

  it("judges what goes together together: a low over the likely is taken once the likely is given, as one step", () => {
    const { session } = show(<Setup />);
    const steps = session.state.getState().history.undo.length;
    goTo(cell(0, LIKELY + 1));
    press("Enter");
    write("0:20");
    // Back to the likely duration, of which 0:20 is no low.
    press("Tab", { shiftKey: true });
    expect(session.state.getState().plan.tasks[0]!.duration.lowS).toBeUndefined();
    write("0:40");
    press("Enter");
    expect(session.state.getState().plan.tasks[0]!.duration).toMatchObject({ lowS: 1200, likelyS: 2400 });
    expect(session.state.getState().history.undo.length).toBeGreaterThan(steps);
    expect(document.querySelector(".setup-kept")).toBeNull();
  });

  it("refuses what only the whole plan can tell", () => {
    const { session } = show(<Setup />);
    const { plan } = session.state.getState();
    goTo(cell(0, LIKELY + 1));
    press("Enter");
    write("0:20");
    expect(document.querySelector(".cell-fault")?.textContent).toBe(
      "Low (0:20) must not be longer than likely (0:15).",
    );
    press("Enter");
    expect(session.state.getState().plan).toBe(plan);
  });

  it("keeps a faulty draft in its cell when the planner goes elsewhere, and takes it up again", () => {
    const { session } = show(<Setup />);
    const { plan } = session.state.getState();
    goTo(cell(0, LIKELY));
    press("Enter");
    write("soon");
    goTo(cell(2, WORTH));
    expect(cell(0, LIKELY).textContent).toContain("soon");
    expect(cell(0, LIKELY).textContent).toContain("Write 1:30, 90 min or 45 s.");
    expect(cell(0, LIKELY).getAttribute("aria-invalid")).toBe("true");
    expect(session.state.getState().plan).toBe(plan);
    goTo(cell(0, LIKELY));
    press("Enter");
    expect((here() as HTMLInputElement).value).toBe("soon");
    write("20");
    press("Enter");
    expect(session.state.getState().plan.tasks[0]!.duration.likelyS).toBe(1200);
    expect(cell(0, LIKELY).textContent).toBe("0:20");
  });

  it("goes on to the next field with Tab", () => {
    const { session } = show(<Setup />);
    goTo(cell(0, WORTH));
    press("Enter");
    write("5");
    press("Tab");
    expect(here().getAttribute("aria-label")).toBe("Likely of Task one, h:mm");
    write("0:30");
    press("Tab", { shiftKey: true });
    expect(here().getAttribute("aria-label")).toBe("Worth of Task one, points");
    const [task] = session.state.getState().plan.tasks;
    expect([task!.worth, task!.duration.likelyS]).toEqual([5, 1800]);
  });

  it("goes on with Tab over yes and no, and past what does not apply", () => {
    const { session } = show(<Setup />);
    goTo(cell(0, 0));
    press("Enter");
    press("Tab");
    expect(here().getAttribute("aria-label")).toBe("Kind of Task one");
    press("Tab");
    expect(here().getAttribute("aria-label")).toBe("Must-do of Task one");
    click(here());
    press("Tab");
    expect(here().getAttribute("aria-label")).toBe("Worth of Task one, points");
    expect(session.state.getState().plan.tasks[0]!.must).toBe(true);
    // Nothing is brought back, so that neither its mass nor its volume can be written.
    const carried = TASK_COLUMNS.indexOf("Carried out");
    const mass = TASK_COLUMNS.indexOf("Mass");
    expect(cell(0, mass).hasAttribute("data-fixed")).toBe(true);
    goTo(cell(0, carried));
    press("Enter");
    press("Tab");
    // Nothing is carried out that could come back.
    expect(here().getAttribute("aria-label")).toBe("Instrument of Task one");
    press("Tab");
    if (!cell(0, carried + 3).hasAttribute("data-fixed")) press("Tab");
    expect(here().getAttribute("aria-label")).toBe("Cautions of Task one");
  });

  it("leaves no mark when nothing was changed", () => {
    const { session } = show(<Setup />);
    const { history } = session.state.getState();
    goTo(cell(0, WORTH));
    press("Enter");
    press("Enter");
    expect(session.state.getState().history).toBe(history);
  });

  it("is gone to with a first click and edited with a second", () => {
    show(<Setup />);
    const point = (): void => {
      const target = cell(1, WORTH);
      act(() => {
        target.dispatchEvent(new MouseEvent("mousedown", { bubbles: true }));
        target.focus();
        target.dispatchEvent(new MouseEvent("click", { bubbles: true, detail: 1 }));
      });
    };
    point();
    expect(here()).toBe(cell(1, WORTH));
    expect(document.querySelector(".cell-editor")).toBeNull();
    point();
    expect(here()).toBeInstanceOf(HTMLInputElement);
  });

  it("flips yes and no with Space", () => {
    const { session } = show(<Setup />);
    goTo(cell(0, 2));
    press(" ");
    expect(session.state.getState().plan.tasks[0]!.must).toBe(true);
    press(" ");
    expect(session.state.getState().plan.tasks[0]!.must).toBe(false);
  });

  it("flips yes and no with one click, wherever the keyboard was", () => {
    const { session } = show(<Setup />);
    goTo(cell(0, 0));
    click(cell(0, 2));
    expect(session.state.getState().plan.tasks[0]!.must).toBe(true);
    click(cell(0, 2));
    expect(session.state.getState().plan.tasks[0]!.must).toBe(false);
  });

  it("is gone through with arrows, Home and End, never out of it", () => {
    show(<Setup />);
    goTo(cell(0, 0));
    press("ArrowUp");
    press("ArrowLeft");
    expect(here()).toBe(cell(0, 0));
    press("ArrowDown");
    press("ArrowRight");
    expect(here()).toBe(cell(1, 1));
    press("End");
    expect(here()).toBe(document.querySelectorAll("tbody tr")[1]?.lastElementChild);
    press("Home", { ctrlKey: true });
    expect(here()).toBe(cell(0, 0));
    expect(document.querySelectorAll('tbody [tabindex="0"]')).toHaveLength(1);
  });
});

describe("rows", () => {
  it("are added as one step, the new name open for writing", () => {
    const { session } = show(<Setup />);
    click(button("Add task"));
    expect(session.state.getState().plan.tasks).toHaveLength(4);
    expect(session.state.getState().history.undo.at(-1)?.name).toBe("Add New task 4");
    expect(here().getAttribute("aria-label")).toBe("Name of New task 4");
    write("Look around");
    press("Enter");
    expect(session.state.getState().plan.tasks[3]!.name).toBe("Look around");
  });

  it("that undo takes away leave the keyboard in the table, and what added the first takes it at the end", () => {
    const { session } = show(<Setup />);
    click(button("Links"));
    click(button("Add link"));
    press("Escape");
    click(button("Add link"));
    press("Escape");
    expect(here()).toBe(cell(1, 0));
    act(() => void session.undo());
    expect(here()).toBe(cell(0, 0));
    act(() => void session.undo());
    expect(here()).toBe(button("Add link"));
  });

  it("begin to be written once, not again when the table comes back", () => {
    const { session } = show(<Setup />, (fresh) => fresh.edit("Empty", () => ({ tasks: [], links: [] })));
    click(button("Add task"));
    press("Escape");
    act(() => void session.undo());
    act(() => void session.redo());
    expect(document.querySelector(".cell-editor")).toBeNull();
  });

  it("are duplicated under a name of their own", () => {
    const { session } = show(<Setup />);
    goTo(cell(1, 0));
    click(button("Duplicate Task two"));
    const ids = session.state.getState().plan.tasks.map((task) => task.id);
    expect(new Set(ids).size).toBe(4);
    expect(session.state.getState().plan.tasks[3]!.name).toBe("Task two (copy)");
  });

  it("that nothing names are removed at once", () => {
    const { session } = show(<Setup />);
    goTo(cell(1, 0));
    click(button("Remove Task two"));
    expect(session.state.getState().plan.tasks.map((task) => task.id)).toEqual(["one", "three"]);
    expect(here()).toBe(cell(1, 0));
  });

  it("that others name are removed only after it was said what goes with them", () => {
    const { session } = show(<Setup />);
    const { plan } = session.state.getState();
    goTo(cell(0, 0));
    click(button("Remove Task one"));
    expect(session.state.getState().plan).toBe(plan);
    const dialog = document.querySelector("dialog");
    expect(dialog?.textContent).toContain("Its place on the day line goes");
    click(button("Keep it"));
    expect(session.state.getState().plan).toBe(plan);
    expect(document.querySelector("dialog")).toBeNull();
    click(button("Remove Task one"));
    click(button("Remove all of this"));
    expect(session.state.getState().plan.tasks.map((task) => task.id)).toEqual(["two", "three"]);
    expect(session.state.getState().plan.schedule.placements).toEqual([]);
    act(() => void session.undo());
    expect(session.state.getState().plan).toEqual(plan);
  });

  it("that others cannot do without are not removed, and it is said why", () => {
    const { session } = show(<Setup />);
    const { plan } = session.state.getState();
    click(button("Crew and suits"));
    const suits = document.querySelectorAll<HTMLElement>("table")[1]!;
    goTo(suits.querySelector<HTMLElement>("tbody th")!);
    click(button("Remove Suit"));
    expect(document.querySelector("dialog")?.textContent).toContain("EV1 wears it");
    expect(() => button("Remove all of this")).toThrow();
    click(button("Close"));
    expect(session.state.getState().plan).toBe(plan);
  });
});

describe("the pages of setup", () => {
  it("begin at their top each, however far the one before was read", () => {
    show(<Setup />);
    const page = (): HTMLElement => document.querySelector<HTMLElement>('[role="tabpanel"]')!;
    click(button("Stay"));
    page().scrollTop = 400;
    click(button("Flight rules"));
    expect(page().scrollTop).toBe(0);
  });
});

describe("choices", () => {
  it("name the plan's own things", () => {
    const { session } = show(<Setup />);
    click(button("Crew and suits"));
    goTo(cell(0, 4));
    press("Enter");
    expect([...(here() as HTMLSelectElement).options].map((option) => option.text)).toEqual([
      "Suit",
      "Other suit",
    ]);
    press("Escape");
    click(button("EVAs"));
    goTo(cell(0, 1));
    press("Enter");
    const boxes = [...document.querySelectorAll<HTMLInputElement>("fieldset input")];
    expect(boxes.map((box) => box.checked)).toEqual([true, true]);
    click(boxes[1]!);
    press("Enter");
    expect(session.state.getState().plan.evas[0]!.crew).toEqual(["ev1"]);
  });
});

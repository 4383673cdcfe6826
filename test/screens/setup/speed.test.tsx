// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import { taskTable } from "../../../src/screens/fields/tasks.ts";
import { rowsShown } from "../../../src/screens/setup/rowwindow.ts";
import { Setup } from "../../../src/screens/setup/setup.tsx";
import { headsIn } from "../../../src/screens/setup/sheetheads.ts";
import { pastedOver, textOf } from "../../../src/screens/setup/sheetpaste.ts";
import { nearestWord } from "../../../src/screens/fields/spelling.ts";
import { TASK_TEMPLATES } from "../../../src/screens/fields/tasktemplates.ts";
import { parse } from "../../../src/plan/index.ts";
import { tabbedRows } from "../../../src/session/index.ts";
import { planOf, smallInput } from "../../session/bench.ts";
import { button, cell, click, goTo, here, press, setStage, show, write } from "./stage.tsx";

setStage();

const plan = planOf(smallInput);
const ids = plan.tasks.map((task) => task.id);
const column = (label: string) => taskTable.columns.findIndex((one) => one.label === label);

describe("tab-separated text", () => {
  it("is read with quotes, line ends and tabs inside them, and written so that it is read again", () => {
    expect(tabbedRows('a\tb\r\n"c\nd"\t"say ""go"""\n')).toEqual([
      ["a", "b"],
      ["c\nd", 'say "go"'],
    ]);
    const rows = [
      ["x\ty", "plain"],
      ['"', "two\nlines"],
    ];
    expect(tabbedRows(textOf(rows))).toEqual(rows);
    expect(tabbedRows("")).toEqual([]);
  });
});

describe("a block laid over the tasks", () => {
  const kind = column("Kind");
  const from = { row: 1, column: kind };

  it("reads words, ticks and times as a spreadsheet has them, and adds rows past the last", () => {
    // Kind, must-do and worth stand side by side.
    const block = [
      ["Survey", "x", "40"],
      ["deployment", "no", "50"],
      ["Upkeep", "yes", "60"],
    ];
    const read = pastedOver(taskTable, plan, ids, from, block);
    if (!read.ok) throw new Error(read.error.join());
    expect(read.value).toMatchObject({ cells: 9, added: 1 });
    const tasks = read.value.parts.tasks!;
    expect(tasks.map((task) => [task.kind, task.must, task.worth])).toEqual([
      ["sampling", false, 10],
      ["survey", true, 40],
      ["deployment", false, 50],
      ["upkeep", true, 60],
    ]);
    expect(Object.keys(read.value.parts)).toEqual(["tasks"]);
  });

  it("with any fault is not pasted at all, and it is said what is wrong where", () => {
    const read = pastedOver(taskTable, plan, ids, from, [["Survey"], ["digging"]]);
    expect(read).toEqual({
      ok: false,
      error: [
        "Row 2, Kind of Task three: There is no “digging” to choose; there is: Sampling, Deployment, Survey, Upkeep.",
      ],
    });
    const below = pastedOver(taskTable, plan, ids, from, [["Samplng", "", "50 pts"]]);
    expect(below).toEqual({
      ok: false,
      error: [
        "Row 1, Kind of Task two: There is no “Samplng” to choose; perhaps “Sampling”.",
        "Row 1, Worth of Task two, “50 pts”: Write a number (points).",
      ],
    });
  });

  it("passes over empty texts and finds places by name", () => {
    const place = column("Place");
    const read = pastedOver(taskTable, plan, ids, { row: 0, column: place }, [["lander"], [""]]);
    if (!read.ok) throw new Error(read.error.join());
    expect(read.value.parts.tasks!.map((task) => task.place)).toEqual(["lander", "ridge", "ridge"]);
  });
});

describe("a block under heads", () => {
  const laid = (block: readonly (readonly string[])[]) => {
    const read = pastedOver(taskTable, plan, ids, { row: 3, column: column("Worth") }, block);
    if (!read.ok) throw new Error(read.error.join());
    return { ...read.value, tasks: read.value.parts.tasks!.slice(3) };
  };

  it("goes where its heads say, in any order, with their units", () => {
    const { tasks, cells, added, notes } = laid([
      ["Location", "Task", "Must do", "Duration (min)", "High [h]", "Walk in it (km)"],
      ["Lander", "Dig", "x", "25", "1.5", "0.3"],
      ["", "Look", "", "0:10", "", ""],
    ]);
    expect([cells, added]).toEqual([8, 2]);
    expect(
      tasks.map((task) => [task.name, task.place, task.must, task.duration.likelyS, task.duration.highS]),
    ).toEqual([
      ["Dig", "lander", true, 1500, 5400],
      ["Look", "ridge", false, 600, undefined],
    ]);
    expect(tasks[0]!.walkM).toBe(300);
    expect(notes).toEqual(["Blank, so as a new row has it: Place Ridge (1), Walk in it 0 (1)."]);
  });

  it("tells what went nowhere and which names are there twice", () => {
    const { tasks, notes } = laid([
      ["Name", "Worth", "Lead", "Start (UTC)", "Mass"],
      ["Dig", "20", "Ann", "7:00", "2"],
      ["", "", "", "", ""],
      ["Task one", "30", "Bo", "", ""],
    ]);
    expect(tasks.map((task) => task.name)).toEqual(["Dig", "Task one"]);
    expect(notes).toEqual([
      "Left out 2 cells under “Lead”, which is no column here.",
      "Left out 1 cell under “Start (UTC)”, which is no column here.",
      "Left out 1 cell in Mass: Not given what it brings back: choose a container first.",
      "2 rows are called “Task one”.",
    ]);
  });

  it("is known by two heads, and a row of values is none", () => {
    const heads = (row: readonly string[]) => headsIn(row, taskTable.columns);
    expect(heads(["Survey", "x", "40"])).toBeNull();
    expect(heads(["Name", "Bo", "Ann"])).toBeNull();
    expect(heads(["Name"])?.map((head) => head.column)).toEqual([0]);
    expect(heads(["Name", "Bo", "Worth"])?.map((head) => head.column)).toEqual([0, null, column("Worth")]);
  });

  it("says the request by its name where nothing else does, else by its number", () => {
    const columns = (row: readonly string[]) => headsIn(row, taskTable.columns)?.map((head) => head.column);
    const [name, number, place] = [0, column("Number"), column("Place")];
    expect(columns(["Request", "Where", "Minutes"])).toEqual([name, place, column("Likely")]);
    expect(columns(["Request", "Task", "Where"])).toEqual([number, name, place]);
    expect(columns(["Request", "Title", "Where"])).toEqual([number, name, place]);
    expect(columns(["No.", "Request", "Where"])).toEqual([number, name, place]);
    expect(columns(["Request no", "Request", "Where"])).toEqual([number, name, place]);
  });

  it("may be a unit by itself: what stands under it is in it", () => {
    const { tasks } = laid([
      ["Name", "Minutes"],
      ["Dig", "25"],
    ]);
    expect(tasks[0]!.duration.likelyS).toBe(1500);
    expect(headsIn(["Name", "Hours"], taskTable.columns)?.[1]).toMatchObject({ unit: "h" });
    // The least of a duration, as ever.
    expect(headsIn(["Name", "Min"], taskTable.columns)?.[1]).toMatchObject({
      column: column("Low"),
      unit: "",
    });
  });

  it("never lets a name that two have stand for one of them", () => {
    const twice = { ...plan.site.places[1]!, id: "other" };
    const site = { ...plan.site, places: [...plan.site.places, twice] };
    const read = pastedOver(taskTable, { ...plan, site }, ids, { row: 0, column: column("Place") }, [
      [twice.name],
    ]);
    expect(read.ok ? [] : read.error).toEqual([
      `Row 1, Place of Task one: Two are called “${twice.name}”: give one of them another name first.`,
    ]);
  });
});

describe("the word that was meant", () => {
  it("has few letters wrong", () => {
    expect(nearestWord("Rim Overlok", ["Lander", "Rim Overlook", "Rim"])).toBe("Rim Overlook");
    expect(nearestWord("digging", ["Sampling", "Deployment"])).toBeNull();
    expect(nearestWord("ab", ["cd"])).toBeNull();
    expect(nearestWord("x", [])).toBeNull();
  });
});

describe("in the grid", () => {
  const paste = (text: string) => {
    const event = new Event("paste", { bubbles: true, cancelable: true });
    Object.assign(event, { clipboardData: { getData: () => text } });
    act(() => void here().dispatchEvent(event));
  };

  it("a pasted block is one step", () => {
    const { session } = show(<Setup />);
    goTo(cell(0, column("Worth")));
    paste("11\n12\n13");
    const { plan: now, history } = session.state.getState();
    expect(now.tasks.map((task) => task.worth)).toEqual([11, 12, 13]);
    expect(history.undo.at(-1)!.name).toBe("Paste 3 cells");
    expect(document.querySelector("[role=status].setup-word")?.textContent).toBe("Pasted 3 cells.");
    paste("14\nmany");
    expect(session.state.getState().plan).toBe(now);
    expect(document.querySelector("[role=alert].setup-word")?.textContent).toContain(
      "Row 2, Worth of Task two",
    );
  });

  it("a block with what the plan cannot take is refused with the cell that holds it", () => {
    show(<Setup />);
    goTo(cell(0, column("Number")));
    paste("Quick look\nB2");
    expect(document.querySelector("[role=alert].setup-word")?.textContent).toBe(
      "Nothing was pasted. Number of Task one, “Quick look”: Use letters and digits, with single points, hyphens or slashes between.",
    );
  });

  it("a block pasted into an open editor goes over the table, whatever was begun", () => {
    const { session } = show(<Setup />);
    click(button("Add task"));
    write("Half a na");
    paste("Rake soil\tSampling\tx\t40\nLook round\tSurvey");
    const { tasks } = session.state.getState().plan;
    expect(tasks.slice(3).map((task) => [task.name, task.kind, task.must])).toEqual([
      ["Rake soil", "sampling", true],
      ["Look round", "survey", false],
    ]);
    expect(document.querySelector(".cell-editor")).toBeNull();
    expect(here()).toBe(cell(3, 0));
  });

  it("what is written in one marked row goes into all of them, as one step", () => {
    const { session } = show(<Setup />);
    goTo(cell(0, column("Worth")));
    press("ArrowDown", { shiftKey: true });
    expect(document.querySelectorAll("tr[data-marked]")).toHaveLength(2);
    press("7");
    write("77");
    press("Enter");
    const { plan: now, history } = session.state.getState();
    expect(now.tasks.map((task) => task.worth)).toEqual([77, 77, 10]);
    expect(history.undo.at(-1)!.name).toBe("Change worth in 2 rows");
    act(() => void session.undo());
    expect(session.state.getState().plan.tasks.map((task) => task.worth)).toEqual([10, 10, 10]);
  });

  it("marked rows that differ take the value of the row in hand as well", () => {
    const { session } = show(<Setup />);
    goTo(cell(0, column("Worth")));
    press("3");
    write("30");
    press("Enter");
    press("ArrowUp");
    press("ArrowDown", { shiftKey: true });
    press("ArrowUp");
    press("F2");
    press("Enter");
    expect(session.state.getState().plan.tasks.map((task) => task.worth)).toEqual([30, 30, 10]);
  });

  // Common practice, no source.
  it("Ctrl+A away from any cell marks the table's rows, and of a table without rows the cell's text: never the page", () => {
    show(<Setup />);
    const pressed = (target: Element): KeyboardEvent => {
      const event = new KeyboardEvent("keydown", {
        key: "a",
        ctrlKey: true,
        bubbles: true,
        cancelable: true,
      });
      act(() => void target.dispatchEvent(event));
      return event;
    };
    expect(pressed(document.body).defaultPrevented).toBe(true);
    expect(document.querySelectorAll("tr[data-marked]")).toHaveLength(3);
    click(button("Flight rules"));
    const number = document.querySelector<HTMLElement>("table[data-sheet] [data-cell]")!;
    goTo(number);
    expect(pressed(number).defaultPrevented).toBe(true);
    expect(getSelection()?.toString()).toBe(number.textContent);
    expect(document.querySelectorAll("tr[data-marked]")).toHaveLength(0);
    press("Enter");
    expect(pressed(here()).defaultPrevented).toBe(false);
  });

  it("Escape unmarks, and a row out of the marked ones is written alone", () => {
    const { session } = show(<Setup />);
    goTo(cell(0, column("Worth")));
    press("a", { ctrlKey: true });
    expect(document.querySelectorAll("tr[data-marked]")).toHaveLength(3);
    press("Escape");
    expect(document.querySelectorAll("tr[data-marked]")).toHaveLength(0);
    press("5");
    press("Enter");
    expect(session.state.getState().plan.tasks.map((task) => task.worth)).toEqual([5, 10, 10]);
  });

  it("a long table has only the rows in sight in the page, and keys still reach all of them", () => {
    const many = {
      ...smallInput,
      tasks: Array.from({ length: 300 }, (_, i) => ({
        ...smallInput.tasks![0]!,
        id: `t${i}`,
        name: `Task ${i}`,
      })),
      schedule: { placements: [] },
    };
    const { session } = show(<Setup />);
    act(() => void session.open(JSON.stringify(many)));
    const inPage = () => document.querySelectorAll("tbody tr:not(.grid-gap)").length;
    expect(inPage()).toBeLessThan(60);
    goTo(cell(0, 0));
    press("End", { ctrlKey: true });
    expect(here().closest("tr")?.getAttribute("aria-rowindex")).toBe("301");
    expect(inPage()).toBeLessThan(60);
  });

  it("rows in the page cover the box and some around", () => {
    expect(rowsShown(20, 0, 100)).toEqual({ first: 0, end: 20, rowPx: 37 });
    expect(rowsShown(300, 3700, 720)).toEqual({ first: 92, end: 128, rowPx: 37 });
    // Rows under a finger are higher: fewer of them cover the same box.
    expect(rowsShown(300, 4500, 720, 45)).toEqual({ first: 92, end: 124, rowPx: 45 });
    expect(rowsShown(300, 1e6, 720).end).toBe(300);
  });
});

describe("sorts of tasks", () => {
  it("each makes a sound task at once", () => {
    for (const [i, sort] of taskTable.rows!.sorts.entries()) {
      const made = sort.add(plan);
      if (typeof made === "string") throw new Error(made);
      const read = parse({ ...plan, ...made.change(plan) });
      expect(read.ok, sort.name).toBe(true);
      if (!read.ok) continue;
      expect(read.value.tasks.at(-1)).toMatchObject({
        name: TASK_TEMPLATES[i]!.name,
        ...TASK_TEMPLATES[i]!.part,
      });
    }
  });

  it("are offered beside the blank one", () => {
    const { session } = show(<Setup />);
    expect(button("Add task")).toBeTruthy();
    act(() => document.querySelector<HTMLElement>('[aria-label="Add a task from a template"]')!.click());
    act(() => button("Core").click());
    expect(session.state.getState().plan.tasks.at(-1)).toMatchObject({ name: "Core", crew: { count: 2 } });
  });
});

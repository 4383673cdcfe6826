import { describe, expect, it } from "vitest";
import { delimitedSheet, sheetsIn } from "../../../src/exchange/lists/index.ts";
import { blankPlan } from "../../../src/session/blank.ts";
import { tabbedRows } from "../../../src/session/index.ts";
import { pastedList } from "../../../src/screens/import/sources.ts";
import { bytesOf, placedPlan, readingOf, readInto, workbook } from "./requests.ts";

/** Cells that could be taken for something else than what was written: each is read as it is meant, or said not to be. */

const sheet = (text: string) => {
  const read = sheetsIn("list.csv", bytesOf(text));
  return read.ok ? (read.value[0]?.rows ?? []) : read.error;
};
const lines = (...rows: readonly string[]): string => rows.join("\n");

describe("a quotation mark that is not closed", () => {
  it.each([
    ["never", lines("Task,Where", "Dig,Lander", '"Anvil,Lander', "Look,Lander")],
    ["in the midst of its cell", lines("Task,Where", "Dig,Lander", '"Anvil" west,Lander', "Look,Lander")],
    [
      "by one of a later row",
      lines("Task;Where", "Dig;Lander", '"5" core;Lander', 'Look;"Lander"', "Go;Lander"),
    ],
  ])("swallows no rows: closed %s, the file is refused with the row", (_, text) => {
    expect(sheet(text)).toMatch(/row 3 begins with a quotation mark/);
    expect(delimitedSheet("Pasted rows", text).ok).toBe(false);
    expect(pastedList(text, { of: () => null, keep: () => undefined }, 0).ok).toBe(false);
  });

  it("is a sign like any other between tabs, where quoted cells stay quoted", () => {
    const text = lines("Task\tWhere", '"Anvil" west\tLander', "Look\tLander");
    expect(tabbedRows(text)).toEqual([
      ["Task", "Where"],
      ['"Anvil" west', "Lander"],
      ["Look", "Lander"],
    ]);
    expect(tabbedRows('Task\tNote\nDig\t"a\nb"')).toEqual([
      ["Task", "Note"],
      ["Dig", "a\nb"],
    ]);
  });

  it("pasted rows beyond any list are refused, and not cut", () => {
    expect(pastedList("Task\n".repeat(5001), { of: () => null, keep: () => undefined }, 0)).toMatchObject({
      ok: false,
      error: "it has more than 5000 rows",
    });
  });
});

describe("the unit in a head", () => {
  const units = (head: string, cell: string) => {
    const text = lines(`Task,Where,Likely,${head}`, `Dig,Lander,20,${cell}`);
    const [task] = readInto(placedPlan(), text).parts.tasks ?? [];
    return task?.massOutKg;
  };

  it("is found among its words", () => {
    expect(units("Mass out (in g)", "300")).toBe(0.3);
    expect(units("Carry out (g; dry)", "300")).toBe(0.3);
    expect(units("Carry out (kg each)", "3")).toBe(3);
    // Neither of two is chosen for the reader.
    expect(readingOf("Task,Where,Duration (in hours)\nDig,Lander,2").columns[2]?.unit).toBe("h");
    expect(readingOf("Task,Where,Duration (approx. days)\nDig,Lander,2").columns[2]?.target).toBeNull();
    expect(readingOf("Place,East (km from lander),North (m)\nTor,1.2,5").columns[1]?.unit).toBe("km");
  });

  it("is none where it is the form of a clock, which says what two numbers are", () => {
    const text = (form: string) =>
      lines(`Task,Where,Duration (${form})`, "Dig,Lander,8:30", "Look,Lander,20");
    const likely = (form: string) =>
      readInto(placedPlan(), text(form)).parts.tasks?.map(({ duration }) => duration.likelyS);
    // 8 min 30 s, 8 h 30 min; a bare number is minutes as ever.
    expect(likely("mm:ss")).toEqual([510, 1200]);
    expect(likely("h:mm")).toEqual([30_600, 1200]);
    expect(likely("hh:mm:ss")).toEqual([30_600, 1200]);
  });
});

describe("a bare number under half a minute", () => {
  it("is the share of a day that a spreadsheet keeps, and no length of work", () => {
    // 25 min are 0.01736 of a day: as minutes a task of one second.
    const read = readInto(
      placedPlan(),
      lines("Task,Where,Likely,At most", "Dig,Lander,0.01736,", "Look,Lander,10,0.4"),
    );
    expect(read.rows.map(({ state, says, lost }) => [state, ...says, ...lost])).toEqual([
      ["left out", "Likely “0.01736” cannot be read"],
      ["new", "At most “0.4”"],
    ]);
    const halves = readInto(
      placedPlan(),
      lines("Task,Where,Likely", "Dig,Lander,0.5", "Look,Lander,0.1 min"),
    );
    expect(halves.parts.tasks?.map(({ duration }) => duration.likelyS)).toEqual([30, 6]);
  });
});

describe("a formula that nothing has worked out", () => {
  it("is no blank cell", () => {
    const cells = (row: string) => `<worksheet><sheetData>${row}</sheetData></worksheet>`;
    const read = sheetsIn(
      "wishes.xlsx",
      workbook(
        cells(
          '<row r="1"><c r="A1"><f>B1*2</f></c><c r="B1"><f>1+1</f><v>2</v></c><c r="C1" t="str"><f>T(B1)</f><v></v></c></row>',
        ),
      ),
    );
    expect(read.ok && read.value[0]?.rows).toEqual([["formula without a value", "2"]]);
  });
});

describe("what is left out", () => {
  it("is said with the cell that the plan refuses", () => {
    const read = readInto(
      placedPlan(),
      lines("Task,Where,Likely,Carry out", "Dig,Lander,20,-3", "Look,Lander,about 20,", "Go,Lander,,"),
    );
    expect(read.rows.map(({ says }) => says.join())).toEqual([
      "Carried out “-3” must be at least 0",
      "Likely “about 20” cannot be read",
      "it has no likely duration",
    ]);
    const places = readInto(blankPlan(0), lines("Place,East,North", "Tor,12 ft,3", "Fold,,4"));
    expect(places.rows.map(({ says }) => says.join())).toEqual([
      "East “12 ft” cannot be read",
      "it has no metres east and north of the lander",
    ]);
  });

  it("is the second place of one name, and a lander moved from where metres are counted from", () => {
    const read = readInto(blankPlan(0), lines("Place,East,North", "Fold,10,20", "fold,30,40", "Lander,5,0"));
    expect(read.rows.map(({ name, state }) => `${name}: ${state}`)).toEqual([
      "Fold: new",
      "fold: left out",
      "Lander: left out",
    ]);
    expect(read.parts.site?.places.find(({ kind }) => kind === "lander")?.eastM).toBe(0);
  });
});

describe("what is lost of a row", () => {
  const read = (...rows: readonly string[]) =>
    readInto(placedPlan(), lines("No.,Task,Where,Likely,After", ...rows));

  it("is a third place, and a wait for itself", () => {
    expect(read("1,Walk,Lander to Low Bench to Far Ledge,20,1").rows[0]?.lost).toEqual([
      "Place “Far Ledge”: a task ends at one place",
      "After itself",
    ]);
  });

  it("is a wait for a name that several tasks have", () => {
    const list = read(
      "1,Photo,Lander,10,",
      "2,Photo,Low Bench,10,",
      "3,Dig,Lander,10,Photo",
      "4,Look,Lander,5,2",
    );
    expect(list.rows[2]?.lost).toEqual(["After “Photo”, which is the name of 2 tasks: give a number"]);
    // Task 2 by its number.
    expect(list.parts.links?.map((link) => link.type === "lag" && link.from.task)).toEqual(["2"]);
    const plan = { ...placedPlan(), ...list.parts };
    const links = readInto(plan, lines("First task,Second task", "Photo,Dig", "1,Dig"));
    expect(links.rows.map(({ state, says }) => [state, ...says])).toEqual([
      ["left out", "“Photo”, which is the name of 2 tasks: give a number"],
      ["new"],
    ]);
  });
});

describe("a second issue", () => {
  it("knows requests apart whose numbers differ in a blank", () => {
    const list = lines("No.,Task,Where,Likely", "R 1,Photo,Lander,10", "R-1,Sketch,Lander,10");
    const plan = { ...placedPlan(), ...readInto(placedPlan(), list).parts };
    expect(readInto(plan, list).rows.map(({ state }) => state)).toEqual(["same", "same"]);
  });
});

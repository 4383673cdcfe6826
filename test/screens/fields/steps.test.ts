import { describe, expect, it } from "vitest";
import { bags } from "../../../src/screens/fields/bagentry.ts";
import { cautionLines, stepLines } from "../../../src/screens/fields/stepentry.ts";
import { guideTo } from "../../../src/plan/index.ts";
import { completePlan } from "../setup/complete.ts";

const pair = stepLines(["EV1", "EV2"]);
const GUIDE = guideTo("tasks.*.steps");
const steps = (text: string, entry = pair) => entry.read(text, completePlan, GUIDE);

describe("steps as people write them", () => {
  it("are whose they say, under their condition, with a blank, behind what guards them", () => {
    const text = [
      "Hold the guide",
      "WARNING: Line runs away: nobody grabs it.",
      "NOTE: It is cold.",
      "ev2: IF lamp red, THEN key back [reading, V]",
      "2nd: Call the mass [mass]",
    ].join("\n");
    const read = steps(text);
    expect(read).toEqual({
      ok: true,
      value: [
        { text: "Hold the guide", cautions: [] },
        {
          by: 2,
          when: "lamp red",
          text: "key back",
          blank: { of: "reading", unit: "V" },
          cautions: [
            { class: "warning", text: "Line runs away: nobody grabs it." },
            { class: "note", text: "It is cold." },
          ],
        },
        { by: 2, text: "Call the mass", blank: { of: "mass", unit: "" }, cautions: [] },
      ],
    });
    // What it shows for editing is read back as the same.
    if (read.ok) expect(steps(pair.draft(read.value, completePlan))).toEqual(read);
  });

  it("keep a colon, an if and brackets that mean nothing here as text", () => {
    for (const text of ["Ground: send wake", "If it stalls, stop", "Turn [gently] left", "Set 1/250 s"])
      expect(steps(text)).toEqual({ ok: true, value: [{ text, cautions: [] }] });
  });

  it("are refused where something is missing, in words", () => {
    expect(steps("IF lamp red key back")).toEqual({
      ok: false,
      error: "“IF lamp red key back” has no THEN.",
    });
    expect(steps("Do it\nWARNING: Hot")).toMatchObject({
      ok: false,
      error: /no step follows that it guards/,
    });
    expect(steps("EV3: hold")).toEqual({
      ok: false,
      error: "Nobody here is called EV3: write EV1: and EV2:, or nothing for all.",
    });
  });
});

describe("cautions as people write them", () => {
  it("have the class before them; without one nobody has said of what class they are", () => {
    const read = cautionLines.read("WARNING: Hot\nMind it\nCLASS?: Old one", completePlan, GUIDE);
    expect(read).toEqual({
      ok: true,
      value: [{ class: "warning", text: "Hot" }, { text: "Mind it" }, { text: "Old one" }],
    });
  });
});

describe("bags as people write them", () => {
  const read = (text: string) => bags.read(text, completePlan, guideTo("tasks.*.sample.bags"));
  it("are how many, or their numbers", () => {
    expect(read("4 bags")).toEqual({ ok: true, value: 4 });
    expect(read("no. 7")).toEqual({ ok: true, value: ["7"] });
    expect(bags.draft(["7"], completePlan)).toBe("no. 7");
    expect(read("T1, T2")).toEqual({ ok: true, value: ["T1", "T2"] });
    expect(read(" ")).toEqual({ ok: true, value: undefined });
    expect(read("bags")).toMatchObject({ ok: false });
  });
});

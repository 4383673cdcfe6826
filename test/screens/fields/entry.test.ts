import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { guideTo, type FieldGuide } from "../../../src/plan/index.ts";
import { percent, quantity, tags } from "../../../src/screens/fields/entry.ts";
import { outfit, uses } from "../../../src/screens/fields/nameentry.ts";
import { corners, effort, sided, sunRange } from "../../../src/screens/fields/specialentry.ts";
import { utc } from "../../../src/screens/fields/dateentry.ts";
import { moment, secondsIn, span, stretches } from "../../../src/screens/fields/timeentry.ts";
import { readDraft } from "../../../src/screens/fields/draft.ts";
import { evaTable } from "../../../src/screens/fields/crew.ts";
import { sessionWith, planOf, smallInput } from "../../session/bench.ts";

const plan = planOf({
  ...smallInput,
  equipment: [
    { id: "drill", name: "Core drill", count: 1 },
    { id: "rake", name: "Rake", count: 2 },
  ],
});
const any: FieldGuide = { words: "", low: null, high: null, whole: false, optional: false, most: null };

describe("a written time", () => {
  it.each([
    ["1:30", 5400],
    ["0:00", 0],
    ["1:30:15", 5415],
    ["90 min", 5400],
    ["90m", 5400],
    ["1h30", 5400],
    ["1 h 30 min", 5400],
    ["1.5 h", 5400],
    ["1,5h", 5400],
    ["45 s", 45],
    ["2 d", 172_800],
    ["1.5 d", 129_600],
    ["1d 2h", 93_600],
    ["2m 5s", 125],
    ["-0:10", -600],
    ["−1:00", -3600],
    ["26:05", 93_900],
    ["1 500 s", 1500],
  ])("%s is %d s", (draft, seconds) => expect(secondsIn(draft)).toBe(seconds));

  it.each([
    "",
    "abc",
    "1:60",
    "1:3",
    "90",
    "1:30:99",
    "h",
    "1h 2h",
    "--1:00",
    "1:30 min",
    "10 15 min",
    "1 5:30",
    "5'30",
  ])("“%s” is none", (draft) => expect(secondsIn(draft)).toBeNull());

  it("comes back from how it is shown", () => {
    fc.assert(
      fc.property(fc.integer({ min: -400_000, max: 400_000 }), (seconds) => {
        expect(moment.read(moment.show(seconds, plan), plan, any)).toEqual({ ok: true, value: seconds });
      }),
    );
  });

  it("is minutes for a bare number only where a length is asked for", () => {
    expect(span.read("90", plan, any)).toEqual({ ok: true, value: 5400 });
    expect(moment.read("90", plan, any).ok).toBe(false);
  });

  it("that is a length is never negative", () => {
    const guide = guideTo("tasks.*.duration.likelyS");
    expect(span.read("-0:05", plan, guide)).toEqual({ ok: false, error: "Must not be negative." });
  });
});

describe("stretches of time", () => {
  it("are one a line and come back as shown for editing", () => {
    const value = [
      { startS: 3600, endS: 9000 },
      { startS: 10_800, endS: 12_600 },
    ];
    expect(stretches.read("1:00 to 2:30\n3:00 – 3:30", plan, any)).toEqual({ ok: true, value });
    expect(stretches.read(stretches.draft(value, plan), plan, any)).toEqual({ ok: true, value });
    expect(stretches.read("", plan, any)).toEqual({ ok: true, value: [] });
  });

  it("that run backwards or say nothing are refused", () => {
    expect(stretches.read("2:00 to 1:00", plan, any).ok).toBe(false);
    expect(stretches.read("2:00", plan, any).ok).toBe(false);
    expect(stretches.read("1:00 to 2:00 to 3:00", plan, any).ok).toBe(false);
  });
});

describe("a quantity", () => {
  const mass = guideTo("crew.*.bodyMassKg");

  it("takes comma or point, its unit, and says bounds with the unit", () => {
    const kg = quantity("kg");
    expect(kg.read("75,5 kg", plan, mass)).toEqual({ ok: true, value: 75.5 });
    expect(kg.read("29", plan, mass)).toEqual({ ok: false, error: "At least 30 kg." });
    expect(kg.read("201", plan, mass)).toEqual({ ok: false, error: "At most 200 kg." });
    expect(kg.read("1e2", plan, mass).ok).toBe(false);
    expect(kg.read("", plan, mass)).toEqual({ ok: false, error: "Must not be empty." });
  });

  it("never takes a comma between thousands for one before decimals", () => {
    const m = quantity("m");
    const read = (draft: string) => m.read(draft, plan, any);
    for (const draft of ["1,150", "1.150", "−12,500 m"]) expect(read(draft).ok).toBe(false);
    // A number of the document that would be asked about is edited with a nought more.
    expect(read(m.draft(1.234, plan))).toEqual({ ok: true, value: 1.234 });
    // Where only one of both is allowed it is that: nobody weighs 75 t.
    expect(quantity("kg").read("75,500", plan, mass)).toEqual({ ok: true, value: 75.5 });
    expect(quantity("kg").read("75.500", plan, mass)).toEqual({ ok: true, value: 75.5 });
    // What has no groups of three is no number in groups.
    for (const draft of ["1 15", "11'50", "1 150'000", "1150 000", "1 '150", "1,15,000", "1.15.000"])
      expect(read(draft).ok, draft).toBe(false);
    expect(read("1,150")).toEqual({
      ok: false,
      error: "It may be 1150 or 1.15: write 1150 or 1.15.",
    });
    for (const [draft, value] of [
      ["1,150,000", 1_150_000],
      ["1,150.5", 1150.5],
      ["0,150", 0.15],
      ["1,15", 1.15],
      ["1150", 1150],
      ["1 150", 1150],
      ["1.150.000", 1_150_000],
      ["1.150,5", 1150.5],
      ["0.150", 0.15],
      ["1.1500", 1.15],
      ["1'150", 1150],
      ["1’150", 1150],
      ["1'150'000.5", 1_150_000.5],
      ["12 345,25", 12_345.25],
      ["1\u00a0150 m", 1150],
      ["1\u202f150", 1150],
      ["−1 150", -1150],
      ["+ 1 150", 1150],
      ["1 150 metres", 1150],
      ["1.15 kilometres", 1150],
    ] as const)
      expect(read(draft)).toEqual({ ok: true, value });
  });

  it("takes other units of its kind, and no unit of another", () => {
    expect(quantity("m").read("2.4 km", plan, any)).toEqual({ ok: true, value: 2400 });
    expect(quantity("m").read("2.4km", plan, any)).toEqual({ ok: true, value: 2400 });
    expect(quantity("kg").read("850 g", plan, any)).toEqual({ ok: true, value: 0.85 });
    expect(quantity("Wh").read("0.5 kWh", plan, any)).toEqual({ ok: true, value: 500 });
    expect(quantity("m/s").read("3.6 km/h", plan, any)).toEqual({ ok: true, value: 1 });
    for (const draft of ["2 kg", "2 mi", "2 m 3", "m"])
      expect(quantity("m").read(draft, plan, any).ok).toBe(false);
  });

  it("asks which of both numbers is meant", () => {
    expect(quantity("m").read("1.234", plan, any)).toEqual({
      ok: false,
      error: "It may be 1234 or 1.234: write 1234 or 1.2340.",
    });
  });

  it("refuses a broken count", () => {
    expect(quantity("").read("1.5", plan, guideTo("equipment.*.count")).ok).toBe(false);
  });

  it("in percent stays the share that it was", () => {
    const guide = guideTo("suits.*.reserve.oxygen");
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 }), (thousandths) => {
        const value = thousandths / 1000;
        expect(percent.read(percent.draft(value, plan), plan, guide)).toEqual({ ok: true, value });
      }),
    );
    expect(percent.read("101", plan, guide)).toEqual({ ok: false, error: "At most 100 %." });
  });
});

describe("entries of one field", () => {
  it("a latitude takes its letter in place of a sign", () => {
    const latitude = sided("N", "S");
    const guide = guideTo("site.latDeg");
    const read = (draft: string) => latitude.read(draft, plan, guide);
    expect(read("72.5 S")).toEqual({ ok: true, value: -72.5 });
    expect(read("72.5° s")).toEqual({ ok: true, value: -72.5 });
    expect(read("72.5N")).toEqual({ ok: true, value: 72.5 });
    expect(read("-72.5°")).toEqual({ ok: true, value: -72.5 });
    expect(read("-72.5 S")).toEqual({ ok: false, error: "Write a sign or S, not both." });
    expect(read("91 S")).toEqual({ ok: false, error: "At least −90 °." });
    expect(read("20 E").ok).toBe(false);
  });

  // Value from memory: a degree has 60 minutes of arc, a minute 60 seconds.
  it("a latitude is read with minutes and seconds of arc too", () => {
    const latitude = sided("N", "S");
    const read = (draft: string) => latitude.read(draft, plan, guideTo("site.latDeg"));
    for (const draft of [`41°49'48" S`, "41° 49′ 48″ S", "41°49.8'S", "−41°49'48\"", "41°49,8′ s"])
      expect([draft, read(draft)]).toEqual([draft, { ok: true, value: -41.83 }]);
    expect(read("0°30' N")).toEqual({ ok: true, value: 0.5 });
    expect(read("41°75'")).toEqual({ ok: false, error: "Minutes and seconds of arc are less than 60." });
    expect(read("90°0'1\" S")).toEqual({ ok: false, error: "At least −90 °." });
    expect(read("41°49'48").ok).toBe(false);
  });

  it("a moment is read as people write it too", () => {
    const read = (draft: string) => utc.read(draft, plan, any);
    const value = "2031-04-05T06:07:00Z";
    for (const draft of [
      "2031-04-05 06:07",
      "2031-04-05 06:07 UTC",
      "2031-04-05T06:07:00Z",
      "2031-04-05t06:07z",
    ])
      expect(read(draft)).toEqual({ ok: true, value });
    expect(read("2031-04-05 06:07:08")).toEqual({ ok: true, value: "2031-04-05T06:07:08Z" });
    expect(read("5 April")).toEqual({
      ok: false,
      error: "Write day and time, UTC: 2031-04-05 06:07, or 5 Apr 2031 6:07.",
    });
  });

  it("suits of an EVA are read by crew member and suit", () => {
    const dressed = {
      ...plan,
      suits: [
        ...plan.suits,
        { ...plan.suits[0]!, id: "spare", name: "Spare, blue" },
        { ...plan.suits[0]!, id: "red", name: "Red" },
      ],
    };
    const [first] = dressed.crew;
    const value = { [first!.id]: "red" };
    expect(outfit.read(`${first!.name} in red`, dressed, any)).toEqual({ ok: true, value });
    expect(outfit.read(outfit.draft(value, dressed), dressed, any)).toEqual({ ok: true, value });
    expect([outfit.show(value, dressed), outfit.show({}, dressed)]).toEqual([
      `${first!.name} in Red`,
      "their own",
    ]);
    expect(outfit.read("", dressed, any)).toEqual({ ok: true, value: {} });
    const said = (draft: string): string => {
      const read = outfit.read(draft, dressed, any);
      return read.ok ? "" : read.error;
    };
    expect(said(`${first!.name} in Green`)).toMatch(/no suit “Green”.*Red/);
    expect(said("Nobody in Red")).toMatch(/no crew member “Nobody”/);
    expect(said(first!.name)).toMatch(/names no suit/);
    expect(said(`${first!.name} in Red, ${first!.name} in Red`)).toMatch(/twice/);
  });

  it("equipment is read by name, with how many", () => {
    const value = [
      { equipment: "drill", count: 1 },
      { equipment: "rake", count: 2 },
    ];
    expect(uses.read("core drill, Rake ×2", plan, any)).toEqual({ ok: true, value });
    expect(uses.read(uses.draft(value, plan), plan, any)).toEqual({ ok: true, value });
    const unknown = uses.read("Hammer", plan, any);
    expect(unknown.ok ? "" : unknown.error).toMatch(/no equipment “Hammer”.*Core drill, Rake/);
    expect(uses.read("Rake, rake", plan, any).ok).toBe(false);
  });

  it("effort is a category or watts", () => {
    expect(effort.read("Geology", plan, any)).toEqual({ ok: true, value: "geology" });
    expect(effort.read("350 W", plan, any)).toEqual({ ok: true, value: { watts: 350 } });
    expect(effort.read("20", plan, any).ok).toBe(false);
    expect(effort.read("dancing", plan, any).ok).toBe(false);
  });

  it("a sun range has both ends in order", () => {
    const guide = guideTo("tasks.*.sun");
    expect(sunRange.read("5 to 15", plan, guide)).toEqual({
      ok: true,
      value: { leastDeg: 5, greatestDeg: 15 },
    });
    expect(sunRange.read("", plan, guide)).toEqual({ ok: true, value: undefined });
    expect(sunRange.read("15 to 5", plan, guide).ok).toBe(false);
    expect(sunRange.read("5", plan, guide).ok).toBe(false);
  });

  it("corners are at least three", () => {
    const value = [
      { eastM: 0, northM: 0 },
      { eastM: 10, northM: 0 },
      { eastM: 10, northM: -5.5 },
    ];
    expect(corners.read("0 0\n10 0\n10 -5.5", plan, any)).toEqual({ ok: true, value });
    expect(corners.read(corners.draft(value, plan), plan, any)).toEqual({ ok: true, value });
    expect(corners.read("0 0; 1 1", plan, any).ok).toBe(false);
  });

  it("qualifications are split at commas", () => {
    expect(tags.read("drill, geology", plan, any)).toEqual({ ok: true, value: ["drill", "geology"] });
  });
});

describe("the bounds of an EVA", () => {
  const write = (label: string, draft: string) => {
    const { session } = sessionWith();
    const { plan: now } = session.state.getState();
    const cell = evaTable.lines(now)[0]!.cells.find((one) => one?.label === `${label} of EVA 1`)!;
    const read = readDraft(session, now, cell, draft);
    return read.ok ? "taken" : read.error;
  };

  it("between which nobody could fly are refused as a file with them is", () => {
    // 1:00 to 8:20, 10 min of airlock work at both ends.
    expect(write("Latest ingress", "1:00")).toBe(
      "The latest ingress (1:00) must be after the earliest egress (1:00).",
    );
    expect(write("Earliest egress", "8:10")).toMatch(/take more than there is from earliest egress/);
    expect(write("Longest", "0:00")).toBe("An EVA of 0 s at the longest cannot be flown.");
    expect(write("Longest", "19 min")).toMatch(/take more than the EVA may last \(0:19\)/);
    expect(write("Longest", "20 min")).toBe("taken");
  });
});

describe("a moment in UTC", () => {
  const read = (draft: string) => utc.read(draft, plan, guideTo("stay.touchdownUtc"));

  it.each([
    "2031-04-05T06:07:00Z",
    "2031-04-05 06:07",
    "2031/4/5 6:07 UTC",
    "5 Apr 2031 6:07",
    "5-Apr-2031, 06:07",
    "April 5, 2031 06:07",
    "5.4.2031 6:07",
    "05.04.2031, 06:07",
    "5. April 2031 6:07",
    "5th April 2031 at 06:07",
    "Apr 5th 2031, 6:07 am",
    "Saturday, 5 April 2031 06:07",
    "2031 Apr 05 06:07:00",
    "05APR2031 0607Z",
    "20310405T0607Z",
    "2031.04.05 06:07",
    "2031-095 06:07",
    "2031/095/06:07",
    "2031-04-05T08:07+02:00",
    "2031-04-04 23:07 -0700",
    "06:07, 5 Apr 2031",
    "6:07 UTC on April 5, 2031",
    "2031-04-05T06:07:00.000Z",
  ])("is read from %s", (draft) => {
    expect(read(draft)).toEqual({ ok: true, value: "2031-04-05T06:07:00Z" });
  });

  it("is of the year that is written, however long ago", () => {
    expect(read("0050-04-05 06:07")).toEqual({ ok: true, value: "0050-04-05T06:07:00Z" });
    expect(read("0050-095 06:07")).toEqual({ ok: true, value: "0050-04-05T06:07:00Z" });
  });

  it("is asked about where day and month may be either", () => {
    expect(read("04/05/2031 06:07")).toEqual({
      ok: false,
      error: "It may be 2031-04-05 or 2031-05-04: write the one that is meant.",
    });
    expect(read("04/25/2031 06:07")).toEqual({ ok: true, value: "2031-04-25T06:07:00Z" });
    expect(read("25/04/2031 06:07")).toEqual({ ok: true, value: "2031-04-25T06:07:00Z" });
    expect(read("05-04-2031 06:07").ok).toBe(false);
    expect(read("04.04.2031 06:07")).toEqual({ ok: true, value: "2031-04-04T06:07:00Z" });
    expect(read("04/04/2031 06:07")).toEqual({ ok: true, value: "2031-04-04T06:07:00Z" });
  });

  it.each([
    ["2031-04-05", "The time is missing: 2031-04-05 06:07."],
    ["5 Apr 2031", "The time is missing: 2031-04-05 06:07."],
    ["5 Apr 31 06:07", "Write the year with four figures: 2031."],
    ["05.04.31 06:07", "Write the year with four figures: 2031."],
    ["31 Apr 2031 06:07", "There is no day 31 in that month."],
    ["29.02.2031 06:07", "There is no day 29 in that month."],
    ["2031-13-05 06:07", "There is no month 13."],
    ["2031-366 06:07", "There is no day 366 in 2031."],
    ["2031-04-05 24:07", "There is no such time of day: write 00:00 to 23:59."],
    ["2031-04-05 13:07 pm", "There is no such time of day: write 00:00 to 23:59."],
    ["soon", "Write day and time, UTC: 2031-04-05 06:07, or 5 Apr 2031 6:07."],
    ["5 Maple 2031 06:07", "Write day and time, UTC: 2031-04-05 06:07, or 5 Apr 2031 6:07."],
    ["", "Must not be empty."],
  ])("is none in “%s”, and it is said why", (draft, error) => {
    expect(read(draft)).toEqual({ ok: false, error });
  });

  it("is read with am and pm", () => {
    expect(read("2031-04-05 12:07 am")).toEqual({ ok: true, value: "2031-04-05T00:07:00Z" });
    expect(read("2031-04-05 12:07 p.m.")).toEqual({ ok: true, value: "2031-04-05T12:07:00Z" });
    expect(read("2031-04-05 6:07pm")).toEqual({ ok: true, value: "2031-04-05T18:07:00Z" });
  });
});

import { check as checkGeoJson } from "@placemarkio/check-geojson";
import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import fc from "fast-check";
import { XMLParser, XMLValidator } from "fast-xml-parser";
import ICAL from "ical.js";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { duration } from "../../../src/kernel/index.ts";
import { csvText, unguarded } from "../../../src/exchange/csv.ts";
import { EXPORTS, everything, type Exported } from "../../../src/exchange/export/index.ts";
import { firstReading, readList, sheetsIn } from "../../../src/exchange/lists/index.ts";
import { planState } from "../../../src/exchange/planstate.ts";
import { readGeoJson } from "../../../src/exchange/geojson.ts";
import { linksCsv } from "../../../src/exchange/export/linkscsv.ts";
import { remarksCsv, tasksCsv } from "../../../src/exchange/export/tables.ts";
import {
  fingerprint,
  parse,
  parseText,
  type Plan,
  shortFingerprint,
  stillToGive,
} from "../../../src/plan/index.ts";
import { completePlan } from "../../plan/completePlan.ts";
import { samplePlan } from "../samplePlan.ts";
import { readZip } from "./readzip.ts";

const LINES = [
  {
    name: "Way <1> & back",
    kind: "way",
    points: [
      { eastM: 0, northM: 0 },
      { eastM: 90, northM: 40 },
    ],
  },
];

function exported(plan: Plan): Exported {
  const reasons = new Map([["x", { task: "x", sentence: "No room.", fitsAt: null, slides: false }]]);
  return {
    plan,
    verdict: check(plan, plan.schedule),
    reasons,
    lines: LINES,
    madeMs: Date.UTC(2031, 0, 2, 3, 4, 5),
  };
}

function wholePlan(): Plan {
  const read = parse(completePlan);
  if (!read.ok) throw new Error("the complete plan has faults");
  return read.value;
}

const from = exported(samplePlan());
const made = (id: string): string => EXPORTS.find((kind) => kind.id === id)?.make(from) ?? "";
const rows = (id: string) => Papa.parse<string[]>(made(id).trimEnd()).data;

describe("the calendar", () => {
  const calendar = () =>
    new ICAL.Component(ICAL.parse(made("calendar")) as unknown as [string, unknown[], unknown[]]);

  it("has an event for every placed task and every EVA that goes out, at its time in UTC", () => {
    const events = calendar()
      .getAllSubcomponents("vevent")
      .map((one) => new ICAL.Event(one));
    const { plan, verdict } = from;
    const evas = new Set(verdict.outings.map(({ eva }) => eva));
    expect(events).toHaveLength(plan.schedule.placements.length + evas.size);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    const zeroMs = Date.parse(plan.stay.touchdownUtc);
    for (const placement of plan.schedule.placements) {
      const task = plan.tasks.find(({ id }) => id === placement.task);
      const event = events.find(({ summary }) => summary.endsWith(` ${task?.name}`));
      expect(event?.startDate.toJSDate().getTime()).toBe(zeroMs + placement.startS * 1000);
      expect(event?.duration.toSeconds()).toBe(task?.duration.likelyS);
    }
  });

  it("folds lines at 75 octets, ends each with CRLF, and keeps the signs that have a meaning", () => {
    const [first, ...more] = from.plan.tasks;
    if (!first) throw new Error("no task");
    const name = `Käfer; “dig, then \\ look” ${"ü".repeat(60)}`;
    const placed = from.plan.schedule.placements[0]?.task;
    const tasks = [first, ...more].map((task) => (task.id === placed ? { ...task, name } : task));
    const text =
      EXPORTS.find(({ id }) => id === "calendar")?.make({ ...from, plan: { ...from.plan, tasks } }) ?? "";
    for (const line of text.split("\r\n"))
      expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    const read = new ICAL.Component(ICAL.parse(text) as unknown as [string, unknown[], unknown[]]);
    const said = read
      .getAllSubcomponents("vevent")
      .map((one) => String(one.getFirstPropertyValue("summary")));
    expect(said.some((one) => one.endsWith(name))).toBe(true);
  });
});

describe("the site", () => {
  it("is GeoJSON to an independent checker", () => {
    const read = checkGeoJson(made("geojson"));
    if (read.type !== "FeatureCollection") throw new Error("no collection");
    const { places, keepOuts } = from.plan.site;
    expect(read.features).toHaveLength(places.length + keepOuts.length + LINES.length);
  });

  it("is KML to an independent parser, with the same places", () => {
    const text = made("kml");
    expect(XMLValidator.validate(text)).toBe(true);
    const read = new XMLParser().parse(text) as { kml: { Document: { Placemark: { name: string }[] } } };
    const names = read.kml.Document.Placemark.map(({ name }) => name);
    for (const place of from.plan.site.places) expect(names).toContain(place.name);
    expect(names).toContain("Way <1> & back");
  });
});

describe("the schema", () => {
  it("takes the plan file, and no other", () => {
    const ajv = new Ajv2020({ strict: false });
    addFormats.default(ajv);
    const fits = ajv.compile(JSON.parse(made("schema")) as object);
    expect(fits(JSON.parse(made("plan"))), JSON.stringify(fits.errors)).toBe(true);
    expect(fits({ ...(JSON.parse(made("plan")) as object), crew: "nobody" })).toBe(false);
  });
});

describe("tables", () => {
  it("have the same number of cells in every row, and a row for each thing", () => {
    for (const id of ["tasks", "schedule", "margins", "findings", "bench", "said"]) {
      const [heads, ...others] = rows(id);
      for (const row of others) expect(row).toHaveLength(heads?.length ?? 0);
    }
    const { plan, verdict } = from;
    expect(rows("tasks")).toHaveLength(plan.tasks.length + 1);
    expect(rows("margins")).toHaveLength(verdict.margins.length + 1);
    expect(rows("findings")).toHaveLength(verdict.findings.length + 1);
    expect(rows("bench")).toHaveLength(plan.tasks.length - plan.schedule.placements.length + 1);
  });

  it("say each comment and sign-off, and whether it still stands", () => {
    const plan = wholePlan();
    const text = EXPORTS.find(({ id }) => id === "said")?.make(exported(plan)) ?? "";
    const [, ...others] = Papa.parse<string[]>(text.trimEnd()).data;
    expect(others.map((row) => [row[0], row[2], row[5]])).toEqual([
      ["comment", "A. Planner", "settled"],
      ["sign-off", "B. Surgeon", "changed"],
    ]);
  });

  it("say a margin as the judge has it, unrounded", () => {
    const [, ...others] = rows("margins");
    expect(others.map((row) => Number(row[7]))).toEqual(from.verdict.margins.map(({ margin }) => margin));
  });

  it("let no cell be run as a formula, full-width signs and blanks before them too, and lose none of its text", () => {
    for (const bad of ["=1+1", "+1", "-1", "@x", "\tx", "＝1", "＋1", "－1", "＠x", "  =1", "'=1"]) {
      const cell = Papa.parse<string[]>(csvText([[bad, "x"]])).data[0]?.[0] ?? "";
      expect(cell).toBe(`'${bad}`);
      expect(unguarded(cell)).toBe(bad);
    }
    // Said, not guessed from the text; and not the first cell, where a reader takes a byte order mark away.
    const COMMAS = { delimiter: ",", newline: "\r\n" } as const;
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        const cell = Papa.parse<string[]>(csvText([["x", text]]), COMMAS).data[0]?.[1] ?? "";
        expect(unguarded(cell)).toBe(text);
      }),
    );
  });
});

describe("there and back", () => {
  it.each([
    ["the sample plan", samplePlan()],
    ["a plan that uses every field", wholePlan()],
  ])("the plan file reads as the same plan: %s", (_, plan) => {
    const text = EXPORTS.find(({ id }) => id === "plan")?.make(exported(plan)) ?? "";
    expect(parseText(text)).toEqual({ ok: true, value: plan });
  });

  it.each([
    ["the sample plan", samplePlan()],
    ["a plan that uses every field", wholePlan()],
  ])("the table of tasks changes nothing where it comes from: %s", (_, plan) => {
    const text = EXPORTS.find(({ id }) => id === "tasks")?.make(exported(plan)) ?? "";
    const sheets = sheetsIn("tasks.csv", new TextEncoder().encode(text));
    const sheet = sheets.ok ? sheets.value[0] : undefined;
    const reading = sheet && firstReading(sheet);
    if (!sheet || !reading) throw new Error("no list");
    const read = readList(plan, sheet, reading);
    expect(read.unread).toEqual([]);
    expect(read.rows.filter(({ state }) => state !== "same")).toEqual([]);
    expect(read.rows.flatMap(({ lost }) => lost)).toEqual([]);
  });
});

describe("the state of the plan", () => {
  /** Files that are of no plan, and the file that is the plan: a digest written into it would be wrong from the first edit by hand on. */
  const WITHOUT = ["schema", "plan"];
  const named = exported(wholePlan());
  const others = EXPORTS.filter(({ id }) => !WITHOUT.includes(id));
  const said = planState(named.plan, named.madeMs);

  it("is said by every file of it: revision, fingerprint, how many tasks, and when it was written", () => {
    const { plan } = named;
    expect(said).toBe(
      `Rev 3 · ${shortFingerprint(plan)} · ${plan.schedule.placements.length} of ${plan.tasks.length} tasks placed · ${stillToGive(plan).length} values not given · written 2 Jan 2031 03:04 UTC`,
    );
    expect(others.length).toBeGreaterThan(8);
    for (const { id, make } of others) expect(make(named).replaceAll("\r\n ", ""), id).toContain(said);
  });

  it("is said by a table without a row too", () => {
    const text = remarksCsv({ ...named.plan, comments: [], signoffs: [] }, named.madeMs);
    expect(text.trimEnd().split("\r\n")).toHaveLength(1);
    expect(text).toContain(said);
  });

  it("is other words for another day, and the same ones whatever is said of the day", () => {
    const { plan } = named;
    expect(planState({ ...plan, comments: [], signoffs: [] })).toBe(planState(plan));
    expect(planState({ ...plan, title: `${plan.title}.` })).not.toBe(planState(plan));
  });

  it("adds nothing to a site that is read back, and nothing to a list", () => {
    const { plan } = named;
    const text = EXPORTS.find(({ id }) => id === "geojson")?.make(named) ?? "";
    const { plan: _, ...bare } = JSON.parse(text) as Record<string, unknown>;
    expect(_).toMatchObject({ fingerprint: fingerprint(plan), revision: "Rev 3" });
    const blank = { ...plan, site: { ...plan.site, places: [], keepOuts: [] } };
    expect(readGeoJson(text, blank)).toEqual(readGeoJson(JSON.stringify(bare), blank));
    const cells = Papa.parse<string[]>(tasksCsv(plan, named.madeMs).trimEnd()).data;
    expect(cells[0]?.at(-1)).toBe(`Plan: ${said}`);
    for (const row of cells.slice(1)) expect(row.at(-1)).toBe("");
  });
});

describe("the list of tasks", () => {
  it("is read back as it is where tasks last ten hours and more, whose h:mm would pass for minutes and seconds", () => {
    const plan = samplePlan();
    const [first, ...more] = plan.tasks;
    const long = { ...plan, tasks: [{ ...first!, duration: { likelyS: duration(43_200) } }, ...more] };
    const read = sheetsIn("tasks.csv", new TextEncoder().encode(tasksCsv(long, 0)));
    const sheet = read.ok ? read.value[0] : undefined;
    const list = readList(long, sheet!, firstReading(sheet!)!);
    expect(new Set(list.rows.map(({ state }) => state))).toEqual(new Set(["same"]));
    expect(list.eitherClock).toBeNull();
  });
});

describe("the list of links", () => {
  const lag = (id: string, more: object) => ({
    ...{ id, type: "lag", from: { task: "x", end: "end" }, to: { task: "y", end: "start" }, needs: "from" },
    ...more,
  });
  const linked = parse({
    ...samplePlan(),
    links: [],
    tasks: ["x", "y", "z", "w"].map((id) => ({
      ...samplePlan().tasks[0]!,
      id,
      number: id,
      name: `Task ${id}`,
    })),
    schedule: { placements: [] },
    variants: [],
    groups: [],
    comments: [],
    signoffs: [],
    site: { ...samplePlan().site, keepOuts: [] },
  });
  if (!linked.ok) throw new Error(JSON.stringify(linked.error));
  const withLinks = (...links: object[]): Plan => {
    const read = parse({ ...linked.value, links });
    if (!read.ok) throw new Error(JSON.stringify(read.error));
    return read.value;
  };
  const takenBack = (plan: Plan) => {
    const read = sheetsIn("links.csv", new TextEncoder().encode(linksCsv(plan, 0)));
    const sheet = read.ok ? read.value[0] : undefined;
    return readList(linked.value, sheet!, firstReading(sheet!)!);
  };

  it("is read back with its lags, which stand in no list of tasks", () => {
    const plan = withLinks(
      lag("long", { leastS: 14_400, greatestS: 43_200 }),
      lag("short", { from: { task: "y", end: "end" }, to: { task: "z", end: "start" }, leastS: 90 }),
    );
    const bare = (links: Plan["links"]) => links.map((link) => ({ ...link, id: "" }));
    expect(bare(takenBack(plan).parts.links ?? [])).toEqual(bare(plan.links));
  });

  it("makes no other link of one that a list cannot say, and says it in words", () => {
    const plan = withLinks(
      lag("open", { greatestS: 600 }),
      lag("over", { from: { task: "y", end: "end" }, to: { task: "z", end: "start" }, leastS: -60 }),
      lag("start", { from: { task: "z", end: "start" }, to: { task: "w", end: "start" }, leastS: 0 }),
      lag("free", {
        from: { task: "x", end: "end" },
        to: { task: "w", end: "start" },
        leastS: 0,
        needs: "none",
      }),
      { id: "crew", type: "crew", tasks: ["x", "w"], crew: "same" },
    );
    const read = takenBack(plan);
    expect(read.parts.links).toBeUndefined();
    expect(read.rows).toEqual([]);
    expect(read.unread).toEqual([{ head: "In words", cells: 5 }]);
    const cells = Papa.parse<string[]>(linksCsv(plan, 0).trimEnd()).data;
    expect(cells[5]?.[4]).toBe("x Task x and w Task w are done by the same crew.");
  });
});

describe("everything in one zip", () => {
  it("holds every kind under its name, the same bytes for the same plan", () => {
    const files = readZip(everything(from));
    expect([...files.keys()].sort()).toEqual(EXPORTS.map(({ file }) => file).sort());
    for (const kind of EXPORTS) expect(files.get(kind.file)).toBe(kind.make(from));
    expect(everything(from)).toEqual(everything(from));
  });
});

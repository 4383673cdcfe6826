import { describe, expect, test } from "vitest";
import { z } from "zod";
import { type Fault, LARGEST_TEXT, parse, parseText } from "../../src/plan/index.ts";
import { planSchema, type PlanInput } from "../../src/plan/plan.ts";
import { completePlan, madeGround } from "./completePlan.ts";

/** The complete plan spoilt by `spoil`, as its faults. */
function faultsOf(spoil: (plan: Spoilt) => void): readonly Fault[] {
  const plan = structuredClone(completePlan) as unknown as Spoilt;
  spoil(plan);
  const read = parse(plan);
  return read.ok ? [] : read.error;
}

// Outside data is anything; here it is mostly right.
// eslint-disable-next-line @typescript-eslint/no-explicit-any
type Spoilt = any;

describe("a file that is not read", () => {
  test.each([
    ["no JSON", "{"],
    ["no text at all", ""],
    ["a spreadsheet", "task;start\none;9"],
  ])("%s is one fault of the whole file", (_, text) => {
    const read = parseText(text);
    expect(read.ok).toBe(false);
    if (!read.ok) {
      expect(read.error).toHaveLength(1);
      expect(read.error[0]).toMatchObject({
        path: "",
        message: expect.stringMatching(/^this is not JSON: /),
      });
    }
  });

  test("a text that is too large is refused before it is read", () => {
    const read = parseText("[".repeat(LARGEST_TEXT + 1));
    expect(read).toEqual({
      ok: false,
      error: [{ path: "", message: "the file is too large: 33 MB, at most 32 MB are read" }],
    });
  });

  test.each([
    ["null", null],
    ["a list", []],
    ["a text", "plan"],
    ["a number", 7],
  ])("%s instead of a plan", (_, data) => {
    expect(parse(data)).toEqual({ ok: false, error: [{ path: "", message: "must be a group of fields" }] });
  });

  test("an empty object misses every field that has no default, each by name", () => {
    const read = parse({});
    const missing = ["format", "version", "title", "site", "stay", "crew", "suits", "evas", "tasks"];
    expect(read).toEqual({ ok: false, error: missing.map((path) => ({ path, message: "is missing" })) });
  });
});

describe("a fault in a field is told by path and in words", () => {
  const cases: [words: string, spoil: (plan: Spoilt) => void, path: string, message: string | RegExp][] = [
    ["another format", (p) => (p.format = "other"), "format", 'must be "lopeline-plan"'],
    ["another version", (p) => (p.version = 0), "version", "must be 3"],
    ["an empty title", (p) => (p.title = "  "), "title", "must not be empty"],
    [
      "a duration below zero",
      (p) => (p.tasks[0].duration.lowS = -1),
      "tasks.0.duration.lowS",
      "must not be negative",
    ],
    [
      "half a second",
      (p) => (p.tasks[1].duration.likelyS = 0.5),
      "tasks.1.duration.likelyS",
      "must be whole seconds",
    ],
    [
      "a time as text",
      (p) => (p.evas[0].earliestEgressS = "1:00"),
      "evas.0.earliestEgressS",
      "must be whole seconds",
    ],
    ["a time in another age", (p) => (p.stay.lengthS = 1e12), "stay.lengthS", "must lie within ten years"],
    ["a body too heavy", (p) => (p.crew[0].bodyMassKg = 201), "crew.0.bodyMassKg", "must be at most 200"],
    ["no number", (p) => (p.suits[0].oxygenKg = null), "suits.0.oxygenKg", "must be a number"],
    ["not a number", (p) => (p.suits[0].oxygenKg = Number.NaN), "suits.0.oxygenKg", "must be a number"],
    [
      "a share above one",
      (p) => (p.suits[0].reserve.oxygen = 1.1),
      "suits.0.reserve.oxygen",
      "must be at most 1",
    ],
    ["a latitude off the globe", (p) => (p.site.latDeg = 91), "site.latDeg", "must be at most 90"],
    ["an id with capitals", (p) => (p.tasks[2].id = "Wake up"), "tasks.2.id", /lower-case letters/],
    ["an unknown kind", (p) => (p.tasks[0].kind = "fun"), "tasks.0.kind", /^must be one of "sampling", /],
    [
      "an unknown effort",
      (p) => (p.tasks[0].effort = "hard"),
      "tasks.0.effort",
      /^must be one of "egress-ingress", /,
    ],
    [
      "an effort below rest",
      (p) => (p.tasks[1].effort.watts = 49),
      "tasks.1.effort.watts",
      "must be at least 50",
    ],
    [
      "an unknown link",
      (p) => (p.links[0].type = "chain"),
      "links.0.type",
      'must be one of "lag", "crew", "eva", "apart"',
    ],
    [
      "a day that is none",
      (p) => (p.stay.touchdownUtc = "2031-02-30T00:00:00Z"),
      "stay.touchdownUtc",
      /UTC time/,
    ],
    [
      "a local time",
      (p) => (p.stay.touchdownUtc = "2031-04-05T06:07:00+02:00"),
      "stay.touchdownUtc",
      /UTC time/,
    ],
    ["a list that is none", (p) => (p.tasks = {}), "tasks", "must be a list"],
    ["a missing place", (p) => delete p.site.places[0].eastM, "site.places.0.eastM", "is missing"],
    ["nobody on an EVA", (p) => (p.evas[0].crew = []), "evas.0.crew", "must be at least 1 entry long"],
    [
      "a fifth crew member",
      (p) => (p.crew = Array(5).fill(p.crew[0])),
      "crew",
      "must be at most 4 entries long",
    ],
    [
      "a corner too few",
      (p) => p.site.keepOuts[1].shape.points.pop(),
      "site.keepOuts.1.shape.points",
      /at least 3/,
    ],
    [
      "a caution too long",
      (p) => (p.tasks[0].cautions = [{ text: "x".repeat(241) }]),
      "tasks.0.cautions.0.text",
      /at most 240/,
    ],
    [
      "a class of a caution that is none",
      (p) => (p.tasks[0].cautions = [{ class: "danger", text: "Hot" }]),
      "tasks.0.cautions.0.class",
      /one of "warning", "caution", "note"/,
    ],
    ["a step of a fifth", (p) => (p.tasks[0].steps[0].by = 5), "tasks.0.steps.0.by", /at most 4/],
    ["a number with a blank", (p) => (p.tasks[0].number = "G 14"), "tasks.0.number", /letters and digits/],
    [
      "a bag number twice",
      (p) => (p.tasks[1].sample.bags = ["R1", "R1"]),
      "tasks.1.sample.bags",
      /same one twice/,
    ],
    ["a field misspelt", (p) => (p.tasks[0].worht = 5), "tasks.0.worht", /no field of this name/],
    ["a field at the top", (p) => (p.extra = 5), "extra", /no field of this name/],
    ["a rule that is none", (p) => (p.rules.sleep = {}), "rules.sleep", /no field of this name/],
  ];
  test.each(cases)("%s", (_, spoil, path, message) => {
    const faults = faultsOf(spoil);
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ path, message: expect.stringMatching(exactly(message)) });
  });

  test("a caution may be as long as a line of the cuff checklist, 240", () => {
    expect(faultsOf((p) => (p.tasks[0].cautions = [{ text: "x".repeat(240) }]))).toEqual([]);
  });

  test("all faults are listed at once", () => {
    const faults = faultsOf((p) => {
      p.title = "";
      p.tasks[0].duration.likelyS = -5;
      p.suits[0].spare = 1;
    });
    expect(faults.map(({ path }) => path).sort()).toEqual([
      "suits.0.spare",
      "tasks.0.duration.likelyS",
      "title",
    ]);
  });
});

describe("a plan that uses every field", () => {
  const read = parse(completePlan);

  test("is read", () => {
    expect(read.ok ? [] : read.error).toEqual([]);
  });

  test("comes back the same through JSON", () => {
    if (!read.ok) return expect.unreachable();
    const again = parseText(JSON.stringify(read.value));
    expect(again).toEqual(read);
  });

  test("keeps every value that was given", () => {
    if (!read.ok) return expect.unreachable();
    expect(read.value).toMatchObject(completePlan as object);
  });

  test("leaves no field of the schema out", () => {
    const asked = fieldsOfSchema(z.toJSONSchema(planSchema, { io: "input", reused: "inline" }) as Node);
    // Ground is either measured or made: the fields of the second form stand in a ground of their own.
    const given = new Set([...fieldsOfData(completePlan), ...fieldsOfData({ ground: madeGround })]);
    expect([...asked].filter((field) => !given.has(field))).toEqual([]);
  });

  test("stands on defaults where it is left bare", () => {
    const { site, stay, crew, suits, evas, tasks, format, version, title } = completePlan;
    const bare: PlanInput = { format, version, title, site, stay, crew, suits, evas, tasks: [] };
    bare.site = { ...site, keepOuts: [] };
    const plain = parse({ ...bare, tasks: [{ ...tasks[2]!, crew: { count: 0 } }] });
    expect(plain.ok).toBe(true);
    if (plain.ok) expect(plain.value.rules.blast).toMatchObject({ leastM: 91.44, level: "breach" });
  });
});

interface Node {
  readonly properties?: Readonly<Record<string, Node>>;
  readonly items?: Node;
  readonly prefixItems?: readonly Node[];
  readonly anyOf?: readonly Node[];
  readonly oneOf?: readonly Node[];
}

/** Every field name with the names above it, `tasks.*.crew.count`; the forms of a union share their fields. */
function fieldsOfSchema(node: Node, path = "", found = new Set<string>()): Set<string> {
  for (const [name, inner] of Object.entries(node.properties ?? {})) {
    const here = path === "" ? name : `${path}.${name}`;
    found.add(here);
    fieldsOfSchema(inner, here, found);
  }
  if (node.items) fieldsOfSchema(node.items, `${path}.*`, found);
  for (const form of [...(node.anyOf ?? []), ...(node.oneOf ?? [])]) fieldsOfSchema(form, path, found);
  return found;
}

function fieldsOfData(data: unknown, path = "", found = new Set<string>()): Set<string> {
  if (Array.isArray(data)) for (const entry of data) fieldsOfData(entry, `${path}.*`, found);
  else if (typeof data === "object" && data !== null) {
    for (const [name, inner] of Object.entries(data)) {
      const here = path === "" ? name : `${path}.${name}`;
      found.add(here);
      fieldsOfData(inner, here, found);
    }
  }
  return found;
}

function exactly(message: string | RegExp): RegExp {
  return typeof message === "string"
    ? new RegExp(`^${message.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}$`)
    : message;
}

import { mkdtemp, readdir, readFile, rm, symlink, truncate, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { EXPORTS } from "../../src/exchange/export/index.ts";
import { planText } from "../../src/exchange/index.ts";
import { CUFF } from "../../src/exchange/paper/cuff.ts";
import { instant } from "../../src/kernel/index.ts";
import { parseText } from "../../src/plan/index.ts";
import { readPdf } from "../exchange/paper/readpdf.ts";
import { crowdedPlan, planOf, samplePlan, taskOf } from "../exchange/samplePlan.ts";
import { answersWhenStopped } from "../../src/cli/command.ts";
import { run, runUntil } from "./run.ts";

let folder = "";
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lope-"));
  await writeFile(at("sound.json"), planText(samplePlan()));
  await writeFile(at("broken.json"), planText(crowdedPlan()));
});
afterAll(() => rm(folder, { recursive: true }));

describe("lope check", () => {
  it("says of a return mass in which a sample has no number that it is at least so much", async () => {
    const plan = samplePlan();
    expect((await run("check", at("sound.json"))).out).toMatch(/return {4}\d[\d.]* kg\n/);
    const tasks = plan.tasks.map((one) =>
      one.sample ? { ...one, sample: { ...one.sample, massKg: 0 } } : one,
    );
    await writeFile(at("unweighed.json"), planText({ ...plan, tasks }));
    expect((await run("check", at("unweighed.json"))).out).toMatch(
      /return {4}at least \d[\d.]* kg, left not known\n/,
    );
    const json = async (name: string) => JSON.parse((await run("check", at(name), "--json")).out) as unknown;
    expect(await json("unweighed.json")).toMatchObject({ returnIsLeast: true });
    expect(await json("sound.json")).toMatchObject({ returnIsLeast: false });
  });

  it("prints one JSON object with the counts and findings, and ends with 0", async () => {
    const { code, out, err } = await run("check", at("sound.json"), "--json");
    const verdict = check(samplePlan(), samplePlan().schedule);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(JSON.parse(out)).toMatchObject({
      breaches: 0,
      tight: verdict.findings.filter((finding) => finding.level === "tight").length,
      mustPlaced: 3,
      mustTotal: 3,
      placed: 9,
      total: 10,
      worth: 90,
      findings: JSON.parse(JSON.stringify(verdict.findings)) as unknown,
    });
  });

  it("ends with 1 where there are breaches, each told in words", async () => {
    const { code, out } = await run("check", at("broken.json"));
    expect(code).toBe(1);
    for (const finding of check(crowdedPlan(), crowdedPlan().schedule).findings) {
      expect(out).toContain(finding.sentence);
    }
  });
});

describe("lope grid", () => {
  it("writes the day with its starts on whole minutes, and says what moved", async () => {
    const plan = samplePlan();
    const rough = {
      ...plan,
      schedule: {
        placements: plan.schedule.placements.map((one) => ({ ...one, startS: instant(one.startS + 20) })),
      },
    };
    await writeFile(at("rough.json"), planText(rough));
    const { code, out } = await run("grid", at("rough.json"), "--out", at("whole.json"));
    expect({ code, out }).toMatchObject({ code: 0, out: expect.stringContaining("whole minutes") as string });
    const read = parseText(await readFile(at("whole.json"), "utf8"));
    if (!read.ok) throw new Error("what was written does not parse");
    const made = read.value;
    expect(made.schedule.placements.map(({ startS }) => startS % 60)).toEqual(
      plan.schedule.placements.map(() => 0),
    );
    expect(made.schedule.placements.map(({ task }) => task)).toEqual(
      plan.schedule.placements.map(({ task }) => task),
    );
  });
});

describe("lope cuff", () => {
  it("writes the booklets of the crew asked for, and leaves the plan as it is", async () => {
    const before = await readFile(at("sound.json"), "utf8");
    const { code, out } = await run("cuff", at("sound.json"), "--out", at("ev1.pdf"), "--crew", "ev1");
    const pdf = await readPdf(await readFile(at("ev1.pdf")));
    expect(code).toBe(0);
    expect(out).toContain(`${pdf.pages.length} pages written`);
    // What is not on it, and what it was not judged for.
    expect(out).toMatch(/On paper: no steps for 1 task: 7 Rake sample\n/);
    expect(out).toMatch(/On paper: no caution for \d+ tasks: 1 Quick first sample; /);
    expect(out).toMatch(/Not judged: work that takes longer/);
    expect(pdf.pages[0]?.widthMm).toBeCloseTo(98, 2);
    expect(await readFile(at("sound.json"), "utf8")).toBe(before);
  });

  it("writes sheets, in stacks or in order, and the day timeline", async () => {
    const cuff = ["cuff", at("sound.json"), "--paper", "a4"];
    expect((await run(...cuff, "--out", at("a4.pdf"), "--duplex", "--rings")).code).toBe(0);
    expect((await run(...cuff, "--out", at("a4.pdf"), "--reading")).code).toBe(0);
    expect((await run("sheet", "day", at("sound.json"), "--out", at("day.pdf"))).code).toBe(0);
    const [sheet, day] = await Promise.all(
      ["a4.pdf", "day.pdf"].map(async (name) => (await readPdf(await readFile(at(name)))).pages[0]!),
    );
    expect(sheet!.heightMm).toBeCloseTo(297, 2);
    expect(day!.widthMm).toBeCloseTo(297, 2);
  });

  it("prints a plan with breaches, says so and ends with 1", async () => {
    const { code, err } = await run("cuff", at("broken.json"), "--out", at("broken.pdf"));
    expect(code).toBe(1);
    expect(err).toMatch(/the plan has \d+ breaches/);
    expect((await readFile(at("broken.pdf"))).subarray(0, 5).toString()).toBe("%PDF-");
  });
});

describe("lope pack", () => {
  it("writes a plan whose schedule the judge clears, the same for the same seed, beside the greedy baseline", async () => {
    const plan = planOf(
      [
        taskOf("first", { place: "pad", must: true }),
        taskOf("second", { place: "rim", worth: 7 }),
        // Nothing lasts ten hours inside an EVA of seven.
        taskOf("endless", { duration: { likelyS: 36_000 }, worth: 50 }),
      ],
      [],
    );
    await writeFile(at("bare.json"), planText(plan));
    const pack = (out: string) =>
      run("pack", at("bare.json"), "--iterations", "200", "--seed", "3", "--out", at(out));
    const first = await pack("one.json");
    await pack("two.json");
    expect({ code: first.code, err: first.err }).toEqual({ code: 0, err: "" });
    expect(first.out).toMatch(/worth 17 beside \d+ of the greedy baseline/);
    const text = await readFile(at("one.json"), "utf8");
    expect(await readFile(at("two.json"), "utf8")).toBe(text);
    const read = parseText(text);
    if (!read.ok) throw new Error(JSON.stringify(read.error));
    const { score, placed } = check(read.value, read.value.schedule);
    expect({ placed, breaches: score.breaches, worth: score.worth }).toEqual({
      placed: 2,
      breaches: 0,
      worth: 17,
    });
    expect({ ...read.value, schedule: plan.schedule }).toEqual(plan);
  });
});

describe("bad input and bad use end with 2, in words, nothing written", () => {
  const refused: [string, () => string[] | Promise<string[]>, RegExp][] = [
    ["no verb", () => [], /no verb given/],
    ["an unknown verb", () => ["fly"], /there is no verb "fly"/],
    ["a verb that every object has", () => ["constructor"], /there is no verb "constructor"/],
    ["no plan", () => ["check"], /say which plan/],
    ["two plans", () => ["check", at("sound.json"), at("broken.json")], /one plan at a time/],
    ["an unknown option", () => ["check", at("sound.json"), "--jsn"], /Unknown option '--jsn'/],
    ["a missing file", () => ["check", at("none.json")], /there is no such file/],
    ["a folder", () => ["check", folder], /is a folder, not a plan file/],
    ["no JSON", () => given("words.json", "{ not json"), /this is not JSON/],
    ["no UTF-8", () => given("latin.json", Buffer.from([0x7b, 0xff, 0xfe])), /is not UTF-8 text/],
    ["another format", () => given("other.json", "[1, 2]"), /other\.json: /],
    [
      "a file too large",
      async () => {
        await writeFile(at("large.json"), "");
        await truncate(at("large.json"), 50 * 1024 * 1024);
        return ["check", at("large.json")];
      },
      /is too large: 50 MB, at most 32 MB/,
    ],
    ["nowhere to write", () => ["cuff", at("sound.json")], /say where to write: --out/],
    [
      "a folder to write to",
      () => ["cuff", at("sound.json"), "--out", folder],
      /is a folder; give a file name/,
    ],
    [
      "no such folder to write to, told before the work",
      () => ["pack", at("sound.json"), "--seconds", "3600", "--out", join(folder, "none", "x.json")],
      /x\.json cannot be written: there is no folder /,
    ],
    [
      "no such folder to write to",
      () => cuffTo("none/x.pdf"),
      /x\.pdf cannot be written: there is no folder /,
    ],
    ["the input as output", () => ["pack", at("sound.json"), "--out", at("sound.json")], /is the input file/],
    [
      "the input as output by another name",
      async () => {
        await symlink(at("sound.json"), at("alias.json"));
        return ["pack", at("sound.json"), "--out", at("alias.json")];
      },
      /is the input file/,
    ],
    [
      "a crew member who is not there",
      () => [...cuffTo("x.pdf"), "--crew", "ev9"],
      /--crew ev9: the plan has ev1, ev2/,
    ],
    [
      "paper that is not there",
      () => [...cuffTo("x.pdf"), "--paper", "a5"],
      /--paper a5: give cuff, a4 or letter/,
    ],
    ["two sides of a cuff page", () => [...cuffTo("x.pdf"), "--duplex"], /need --paper a4 or letter/],
    ["negative seconds", () => [...packTo("x.json"), "--seconds=-1"], /--seconds -1: give a number from 0/],
    ["a seed in words", () => [...packTo("x.json"), "--seed", "lucky"], /--seed lucky: give a whole number/],
    [
      "half an iteration",
      () => [...packTo("x.json"), "--iterations", "0.5"],
      /--iterations 0.5: give a whole/,
    ],
    ["plans with a file", () => ["plans", "x"], /left over: x/],
  ];
  const cuffTo = (name: string): string[] => ["cuff", at("sound.json"), "--out", at(name)];
  const packTo = (name: string): string[] => ["pack", at("sound.json"), "--out", at(name)];
  const given = async (name: string, content: string | Buffer): Promise<string[]> => {
    await writeFile(at(name), content);
    return ["check", at(name)];
  };

  it.each(refused)("%s", async (_, args, words) => {
    const line = await args();
    const before = await readdir(folder);
    const { code, out, err } = await run(...line);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toMatch(words);
    expect(await readdir(folder)).toEqual(before);
  });

  it("names every fault by its path", async () => {
    const plan = JSON.parse(planText(samplePlan())) as { tasks: Record<string, unknown>[]; crew: object[] };
    plan.tasks[0]!.duration = { likelyS: -5 };
    plan.tasks[1]!.place = 7;
    plan.crew[0] = { id: "ev1" };
    await writeFile(at("faulty.json"), JSON.stringify(plan));
    const { code, err } = await run("check", at("faulty.json"));
    expect(code).toBe(2);
    for (const path of ["tasks.0.duration.likelyS", "tasks.1.place", "crew.0.name", "crew.0.suit"]) {
      expect(err).toContain(`faulty.json: ${path}: `);
    }
  });

  it("leaves an older output whole when it refuses", async () => {
    await writeFile(at("older.pdf"), "older");
    expect((await run("cuff", at("words.json"), "--out", at("older.pdf"))).code).toBe(2);
    expect(await readFile(at("older.pdf"), "utf8")).toBe("older");
  });
});

describe("lope help", () => {
  it("names every verb and who decides, with 0", async () => {
    const { code, out } = await run("help");
    expect(code).toBe(0);
    for (const verb of ["check", "pack", "cuff", "plans"]) expect(out).toContain(`lope ${verb}`);
    expect(out).toContain("authorities in charge decide");
    expect(out).toContain(`pages of ${CUFF.widthMm} x ${CUFF.heightMm} mm`);
    expect((await run("cuff", "--help")).out).toBe(out);
  });

  it("names every kind that can be exported", async () => {
    const [, kinds = ""] = /lope export KIND(.*?)\n {2}lope /s.exec((await run("help")).out) ?? [];
    for (const { id } of EXPORTS) expect(kinds).toMatch(new RegExp(`\\b${id}\\b`));
  });
});

describe("a verb that is broken off", () => {
  it("answers with what it has found where that is an answer, and says so where it is not", async () => {
    expect(["pack", "curve", "why"].map((verb) => answersWhenStopped([verb]))).toEqual([true, true, true]);
    for (const verb of ["shed", "odds", "cuff", "check", "toString"])
      expect(answersWhenStopped([verb])).toBe(false);
    const stopped = await runUntil(AbortSignal.abort(), "shed", at("sound.json"));
    expect(stopped.code).toBe(2);
    expect(stopped.err).toMatch(/stopped before the table was whole/);
    expect((await run("shed", at("sound.json"))).code).toBe(0);
  });
});

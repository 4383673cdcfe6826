import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { OddsReport, LateReport } from "../../src/answers/index.ts";
import { planText } from "../../src/exchange/index.ts";
import { ACTING_WORDS, numberedTask } from "../../src/words/index.ts";
import { at as placedAt, task, tinyPlan } from "../check/tinyPlan.ts";
import { crowdedPlan, samplePlan } from "../exchange/samplePlan.ts";
import { run } from "./run.ts";

let folder = "";
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lope-odds-"));
  await writeFile(at("sound.json"), planText(samplePlan()));
  await writeFile(at("broken.json"), planText(crowdedPlan()));
  const open = samplePlan();
  const [first, ...others] = open.crew;
  await writeFile(
    at("open.json"),
    planText({ ...open, crew: [{ ...first!, toGive: ["bodyMassKg"] }, ...others] }),
  );
  const far = {
    tasks: [task("far", "b")],
    placements: [placedAt("far", 2000)],
    suit: { emergencyOxygenS: 400 },
  };
  await writeFile(at("far.json"), planText(tinyPlan(far)));
  await writeFile(at("empty.json"), planText({ ...samplePlan(), schedule: { placements: [] } }));
});
afterAll(() => rm(folder, { recursive: true }));

describe("lope odds", () => {
  it("prints one JSON object, the same for the same seed, and leaves the file alone", async () => {
    const before = await readFile(at("sound.json"), "utf8");
    const first = await run("odds", at("sound.json"), "--days", "150", "--seed", "7", "--json");
    expect(first).toMatchObject({ code: 0, err: "" });
    expect(await run("odds", at("sound.json"), "--days", "150", "--seed", "7", "--json")).toEqual(first);
    const report = JSON.parse(first.out) as OddsReport;
    expect(report).toMatchObject({ days: 150, seed: 7, shape: "pert", complete: true });
    for (const chance of [report.home, report.must, report.whole]) expect(chance).toMatchObject({ of: 150 });
    expect(report.tasks).toHaveLength(samplePlan().schedule.placements.length);
    expect(await readFile(at("sound.json"), "utf8")).toBe(before);
  });

  it("prints chances with their interval in words", async () => {
    const { code, out } = await run("odds", at("sound.json"), "--days", "150", "--shape", "triangular");
    expect(code).toBe(0);
    expect(out).toMatch(/must-do {3}(over|under) \d|must-do {3}\d+\.\d % \(\d+\.\d to \d+\.\d %\)/);
    expect(out).toContain("Not simulated:");
    // A chance is worth nothing without how the crew is taken to act.
    for (const rule of Object.values(ACTING_WORDS))
      expect(out).toContain(`crew      ${rule}\n    without it: home `);
    expect(out).toMatch(/caution {3}durations ahead .*, as now: home .*, must-do .*, mean worth \d/);
  });

  it("says no figure of a day that none can play, and ends with 1", async () => {
    const words = await run("odds", at("far.json"));
    expect(words).toMatchObject({ code: 1, err: "" });
    expect(words.out).toContain("No simulated day can play 1 far as placed");
    expect(words.out).not.toContain("%");
    const { out } = await run("odds", at("far.json"), "--json");
    expect(JSON.parse(out)).toMatchObject({ days: 0, unplayed: ["far"], worth: null, home: { of: 0 } });
  });

  it("says what its figures rest on that nobody has given, as all that is told of a plan does", async () => {
    const words = "rests on  1 value that nobody has given (EV1)";
    for (const verb of [
      ["check"],
      ["odds", "--days", "20"],
      ["shed"],
      ["rehearse"],
      ["rehearse", "--at", "30000"],
      ["why"],
    ])
      expect((await run(verb[0]!, at("open.json"), ...verb.slice(1))).out, verb.join(" ")).toContain(words);
    const figure = await run("from", at("open.json"), "--of", "oxygen", "--eva", "eva-1", "--crew", "ev1");
    expect(figure.out).toContain(words);
    expect((await run("odds", at("sound.json"), "--days", "20")).out).not.toContain("rests on");
    const { out } = await run("odds", at("open.json"), "--days", "20", "--json");
    expect((JSON.parse(out) as { toGive: unknown[] }).toGive).toHaveLength(1);
  });

  it("refuses what it cannot use", async () => {
    expect(await run("odds", at("sound.json"), "--days", "0")).toMatchObject({ code: 2 });
    expect(await run("odds", at("sound.json"), "--shape", "flat")).toMatchObject({ code: 2 });
    const empty = await run("odds", at("empty.json"));
    expect(empty.code).toBe(2);
    expect(empty.err).toContain("nothing placed");
  });
});

describe("lope shed", () => {
  it("prints the order as JSON and as words", async () => {
    const { code, out } = await run("shed", at("sound.json"), "--json");
    expect(code).toBe(0);
    const report = JSON.parse(out) as LateReport;
    expect(report).toMatchObject({ sound: true, complete: true, minutes: [5, 10, 20, 30, 45] });
    const words = await run("shed", at("sound.json"));
    for (const { rows } of report.evas)
      for (const { task } of rows)
        expect(words.out).toContain(`leaving ${numberedTask(samplePlan(), task)} (`);
    expect(words.out).toMatch(/ 5 min late: /);
    // What was found and played is not yet what the crew is told.
    expect(words.out).toContain("Paper has an answer only where the judge passes it");
  });

  it("ends with 1 and says why where the schedule breaks a rule", async () => {
    const { code, err } = await run("shed", at("broken.json"));
    expect(code).toBe(1);
    expect(err).toContain("breaks a rule");
  });
});

describe("lope cuff", () => {
  it("prints the page for being late unless it is told not to", async () => {
    const all = await run("cuff", at("sound.json"), "--out", at("all.pdf"));
    const bare = await run("cuff", at("sound.json"), "--out", at("bare.pdf"), "--no-shed");
    const pages = ({ out }: { out: string }): number => Number.parseInt(out, 10);
    expect(all.code).toBe(0);
    // Without the table a leaf in each booklet says that it is not there, so no page is missing without a word.
    expect(pages(all)).toBeGreaterThanOrEqual(pages(bare));
    const [full, empty] = await Promise.all([readFile(at("all.pdf")), readFile(at("bare.pdf"))]);
    expect(full.length).toBeGreaterThan(empty.length);
  });
});

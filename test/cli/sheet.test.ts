import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { SHEET_KINDS } from "../../src/exchange/index.ts";
import { keysOf } from "../../src/kernel/index.ts";
import { rehearsalFrom, rehearsalText } from "../../src/rehearsal/index.ts";
import { rehearsalSchema } from "../../src/rehearsal/call.ts";
import { samplePlan } from "../exchange/samplePlan.ts";
import { readPdf } from "../exchange/paper/readpdf.ts";
import { run } from "./run.ts";

let folder = "";
const at = (name: string): string => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "lope-sheet-"));
  writeFileSync(at("plan.json"), JSON.stringify(samplePlan()));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe("lope sheet", () => {
  it.each(["day", ...keysOf(SHEET_KINDS)])("writes %s as PDF on the paper asked for", async (kind) => {
    const { code, out } = await run(
      "sheet",
      kind,
      at("plan.json"),
      "--out",
      at("x.pdf"),
      "--paper",
      "letter",
    );
    expect(code).toBe(0);
    const { pages } = await readPdf(new Uint8Array(await readFile(at("x.pdf"))));
    expect(out).toContain(pages.length === 1 ? "1 page written" : `${pages.length} pages written`);
    for (const { widthMm, heightMm } of pages)
      expect([widthMm, heightMm].toSorted((a, b) => a - b).map((one) => Math.round(one * 10) / 10)).toEqual([
        215.9, 279.4,
      ]);
  });

  describe("of a rehearsal that the app saved", () => {
    const [first] = samplePlan().schedule.placements.toSorted((a, b) => a.startS - b.startS);
    const calls = [
      { atS: 4000, kind: "note", words: "Radio check was slow." },
      { atS: 4100, kind: "left-out", task: first!.task },
    ];
    const write = (name: string, more: object): void => {
      const { plan, ...rest } = { ...rehearsalFrom(4200, 7), calls, plan: samplePlan(), ...more };
      writeFileSync(at(name), rehearsalText(rehearsalSchema.parse(rest), JSON.stringify(plan)));
    };
    const words = async (kind: string, file: string): Promise<string> => {
      expect(await run("sheet", kind, at(file), "--out", at("r.pdf"))).toMatchObject({ code: 0 });
      const { pages } = await readPdf(new Uint8Array(await readFile(at("r.pdf"))));
      return pages
        .flatMap(({ boxes }) => boxes)
        .map(({ text }) => text)
        .join(" ");
    };

    it("prints what was called in it, and not what a crew would play", async () => {
      write("rehearsal.json", {});
      const scenario = await words("scenario", "rehearsal.json");
      expect(scenario).toContain("Radio check was slow.");
      expect(scenario).toContain("seed 7, clock at MET 1:10");
      expect(await words("debrief", "rehearsal.json")).toMatch(/Done 0 of \d+.* 2 calls, seed 7/);
    });

    it("prints one in which nothing was called as that", async () => {
      write("new.json", { calls: [] });
      expect(await words("scenario", "new.json")).toMatch(/No call yet, seed 7/);
      expect(await words("debrief", "new.json")).toMatch(/Done 0 of \d+.* 0 calls/);
    });

    it("refuses one that has faults, is not of its plan, or is wanted with a seed", async () => {
      const sheet = (...args: string[]) => run("sheet", "debrief", ...args, "--out", at("r.pdf"));
      write("odd.json", { calls: [{ atS: 4100, kind: "left-out", task: "no-such-task" }] });
      expect(await sheet(at("odd.json"))).toMatchObject({ code: 2 });
      writeFileSync(at("cut.json"), JSON.stringify({ format: "lopeline-rehearsal", version: 1 }));
      expect((await sheet(at("cut.json"))).err).toMatch(/cut\.json: it holds no rehearsal/);
      write("rehearsal.json", {});
      expect((await sheet(at("rehearsal.json"), "--seed", "3")).err).toMatch(/--seed is of a day/);
    });
  });

  it.each([
    [["sheet"], /say which sheet: .*console/],
    [["sheet", "poster", "plan.json"], /say which sheet/],
    [["sheet", "console"], /say which plan/],
    [
      ["sheet", "rules", "plan.json", "--paper", "a5", "--out", "x.pdf"],
      /--paper a5: give a4, letter or cuff/,
    ],
    [["sheet", "day", "plan.json", "--paper", "cuff", "--out", "x.pdf"], /needs --paper a4 or letter/],
  ])("refuses %j with a word", async (args, words) => {
    const { code, err } = await run(...args);
    expect(code).toBe(2);
    expect(err).toMatch(words);
  });
});

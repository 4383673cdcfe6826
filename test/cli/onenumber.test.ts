import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Plan } from "../../src/plan/index.ts";
import { samplePlan } from "../exchange/samplePlan.ts";
import { readPdf } from "../exchange/paper/readpdf.ts";
import { run } from "./run.ts";

/** A task has one number: whoever meets its name, in a file, on paper or in the terminal, meets its number on the same line. */

const NAMES = ["Quill", "Ember", "Sorrel", "Tansy", "Umber", "Vetch", "Wren", "Yarrow", "Aster", "Briar"];

/** Tasks with numbers of their own and names that occur nowhere else; one must-do task is left on the bench, one stands outside its window. */
function numbered(): Plan {
  const plan = samplePlan();
  const tasks = plan.tasks.map((task, k) => ({
    ...task,
    name: `${NAMES[k] ?? `Zinnia${String.fromCharCode(65 + k)}`} work`,
    number: `R${70 + k}`,
    notes: "",
  }));
  const [first, second, ...rest] = plan.schedule.placements;
  const late = tasks.map((task) =>
    task.id === second!.task ? { ...task, windows: [{ startS: 0 as never, endS: 60 as never }] } : task,
  );
  return {
    ...plan,
    tasks: late.map((task) => (task.id === first!.task ? { ...task, must: true } : task)),
    links: [],
    schedule: { placements: [second!, ...rest] },
  };
}

let folder = "";
const at = (name: string): string => join(folder, name);
const plan = numbered();

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "lope-number-"));
  writeFileSync(at("plan.json"), JSON.stringify(plan));
  const [placed] = plan.schedule.placements;
  writeFileSync(
    at("rehearsal.json"),
    JSON.stringify({
      ...{ format: "lopeline-rehearsal", version: 1, seed: 1, nowS: 9000 },
      calls: [{ atS: 4000, kind: "left-out", task: placed!.task }],
      plan,
    }),
  );
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Lines that name a task without its number, and how many name one. */
function unnumbered(lines: readonly string[]): { readonly named: number; readonly bare: readonly string[] } {
  let named = 0;
  const bare: string[] = [];
  for (const line of lines)
    for (const { name, number } of plan.tasks) {
      if (!line.includes(name)) continue;
      named += 1;
      if (!new RegExp(`(?<![\\w-])${number}(?![\\w-])`).test(line)) bare.push(line);
    }
  return { named, bare };
}

async function pdfLines(name: string): Promise<string[]> {
  const { pages } = await readPdf(new Uint8Array(await readFile(at(name))));
  return pages.flatMap(({ boxes }) => {
    const rows = new Map<number, string[]>();
    for (const box of boxes) {
      const row = Math.round(box.baseline * 2);
      rows.set(row, [...(rows.get(row) ?? rows.get(row - 1) ?? []), box.text]);
    }
    return [...rows.values()].map((row) => row.join(" "));
  });
}

describe("the number of a task", () => {
  it.each([["check"], ["shed"], ["odds", "--days", "50"], ["rehearse"], ["rehearse", "--csv"]])(
    "stands beside its name in the terminal: %s",
    async (verb, ...options) => {
      const { out } = await run(verb, at("plan.json"), ...options);
      const { named, bare } = unnumbered(out.split(/\r?\n/));
      expect(bare).toEqual([]);
      if (verb !== "shed") expect(named).toBeGreaterThan(0);
    },
  );

  it.each(["tasks", "schedule", "findings", "bench", "calendar"])(
    "stands beside its name in the file: %s",
    async (kind) => {
      await run("export", kind, at("plan.json"), "--out", at("x.txt"));
      const { named, bare } = unnumbered((await readFile(at("x.txt"), "utf8")).split(/\r?\n/));
      expect(bare).toEqual([]);
      expect(named).toBeGreaterThan(0);
    },
  );

  it.each([
    "console",
    "gauges",
    "late",
    "stations",
    "manifest",
    "stowage",
    "left-out",
    "debrief",
    "scenario",
  ])("stands on the line of its name on the sheet: %s", async (kind) => {
    const file = kind === "debrief" || kind === "scenario" ? "rehearsal.json" : "plan.json";
    await run("sheet", kind, at(file), "--out", at(`${kind}.pdf`));
    const { bare } = unnumbered(await pdfLines(`${kind}.pdf`));
    expect(bare).toEqual([]);
  });
});

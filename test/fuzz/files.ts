import { readFileSync } from "node:fs";
import { check } from "../../src/check/index.ts";
import { openHeights, planText } from "../../src/exchange/index.ts";
import { firstReading, readList, sheetsIn } from "../../src/exchange/lists/index.ts";
import { isEqual, type Random } from "../../src/kernel/index.ts";
import { parse, parseText, type Plan } from "../../src/plan/index.ts";
import { callFaults, played, rehearsalFrom } from "../../src/rehearsal/index.ts";
import { rehearsalSchema } from "../../src/rehearsal/call.ts";
import { walksOf } from "../../src/terrain/index.ts";
import { bytesOf, placedPlan, REQUESTS, workbook } from "../exchange/lists/requests.ts";
import { sketchOf } from "../../src/screens/opening/sketch.ts";
import { samplePlan } from "../exchange/samplePlan.ts";
import { misshapen } from "./misshape.ts";
import { mutated } from "./mutate.ts";

/** The kinds of files that come from outside, each with a sound one to spoil and the door that it goes through. */
export interface FileKind {
  readonly name: string;
  readonly sound: Uint8Array;
  /** How it is spoilt; left out, its bytes are. */
  readonly spoil?: (bytes: Uint8Array, draw: Random) => Uint8Array;
  /** True when it was taken, false when it was refused in words. Throwing is the fault that is looked for. */
  open(bytes: Uint8Array): boolean | Promise<boolean>;
}

const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

function takesList(plan: Plan, name: string, bytes: Uint8Array): boolean {
  const sheets = sheetsIn(name, bytes);
  for (const sheet of sheets.ok ? sheets.value : []) {
    const reading = firstReading(sheet);
    if (reading) readList(plan, sheet, reading);
  }
  return sheets.ok;
}

function sheetXml(): string {
  const rows = REQUESTS.split("\n").map((line, row) => {
    const cells = line.split(",").map((text, column) => {
      const safe = text.replace(/[<&"]/g, "");
      return `<c r="${String.fromCharCode(65 + column)}${row + 1}" t="inlineStr"><is><t>${safe}</t></is></c>`;
    });
    return `<row r="${row + 1}">${cells.join("")}</row>`;
  });
  return `<worksheet><sheetData>${rows.join("")}</sheetData></worksheet>`;
}

export function fileKinds(): readonly FileKind[] {
  const plan = placedPlan();
  return [
    {
      name: "plan",
      sound: new Uint8Array(readFileSync("public/plans/small.json")),
      open: (bytes) => parseText(textOf(bytes)).ok,
    },
    {
      name: "misshapen plan",
      sound: new Uint8Array(readFileSync("public/plans/small.json")),
      spoil: misshapenBytes,
      open: (bytes) => takesPlan(textOf(bytes)),
    },
    {
      name: "misshapen rehearsal",
      sound: bytesOf(rehearsalText()),
      spoil: misshapenBytes,
      open: (bytes) => takesRehearsal(textOf(bytes)),
    },
    { name: "CSV", sound: bytesOf(REQUESTS), open: (bytes) => takesList(plan, "list.csv", bytes) },
    { name: "XLSX", sound: workbook(sheetXml()), open: (bytes) => takesList(plan, "list.xlsx", bytes) },
    {
      name: "sheet in XLSX",
      sound: bytesOf(sheetXml()),
      open: (bytes) => takesList(plan, "list.xlsx", workbook(textOf(bytes))),
    },
    {
      name: "GeoTIFF",
      sound: new Uint8Array(readFileSync("test/exchange/heightgrid/files/bare.tif")),
      open: async (bytes) => (await openHeights("heights.tif", bytes.slice().buffer)).ok,
    },
    {
      name: "rehearsal",
      sound: bytesOf(rehearsalText()),
      open(bytes) {
        return takesRehearsal(textOf(bytes));
      },
    },
  ];
}

const misshapenBytes = (bytes: Uint8Array, draw: Random): Uint8Array =>
  bytesOf(misshapen(textOf(bytes), draw));

/** A plan that is taken is also judged, drawn at first sight, and saved as what reads as the same plan. */
function takesPlan(text: string): boolean {
  sketchOf(JSON.parse(text));
  const read = parseText(text);
  if (!read.ok) return false;
  check(read.value, read.value.schedule);
  const again = parseText(planText(read.value));
  if (!again.ok || !isEqual(again.value, read.value)) throw new Error("what is saved reads as another plan");
  return true;
}

function takesRehearsal(text: string): boolean {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return false;
  }
  if (typeof data !== "object" || data === null || !("plan" in data)) return false;
  const { plan, ...rest } = data;
  const rehearsal = rehearsalSchema.safeParse(rest);
  const read = parse(plan);
  return rehearsal.success && read.ok && callFaults(read.value, rehearsal.data).length === 0;
}

/** A whole day, rehearsed by a crew that carries on by itself. */
function rehearsalText(): string {
  const plan = samplePlan();
  return JSON.stringify({ ...played(plan, rehearsalFrom(0, 1), plan.stay.lengthS, walksOf(plan)), plan });
}

/** What came of many spoilt files of a kind. */
export interface Tally {
  readonly name: string;
  readonly tried: number;
  readonly taken: number;
  readonly slowestMs: number;
  /** The first faults, each with what brings it about again. */
  readonly faults: readonly string[];
}

/** Opens `count` spoilt files of a kind; the clock counts ms. */
export async function tryFiles(
  kind: FileKind,
  count: number,
  draw: Random,
  nowMs: () => number,
): Promise<Tally> {
  let taken = 0;
  let slowestMs = 0;
  const faults: string[] = [];
  for (let number = 0; number < count; number += 1) {
    const bytes = (kind.spoil ?? mutated)(kind.sound, draw.split());
    const begun = nowMs();
    try {
      if (await kind.open(bytes)) taken += 1;
    } catch (error) {
      if (faults.length < 5)
        faults.push(
          `${kind.name} ${number}: ${error instanceof Error ? (error.stack ?? error.message).slice(0, 400) : "thrown"}`,
        );
    }
    slowestMs = Math.max(slowestMs, nowMs() - begun);
  }
  return { name: kind.name, tried: count, taken, slowestMs, faults };
}

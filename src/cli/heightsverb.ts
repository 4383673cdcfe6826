import { readFile } from "node:fs/promises";
import { basename } from "node:path";
import {
  type GivenFile,
  type HeightAnswers,
  heightsAmong,
  openHeights,
  planText,
  takeHeights,
  takenWords,
} from "../exchange/index.ts";
import { numberOption, readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { fileTrouble, readPlan } from "./planinput.ts";
import { Refusal, refuse } from "./refusal.ts";
import type { ExitCode, Streams } from "./verb.ts";

const METRES = { m: 1, km: 1000, cm: 0.01, ft: 0.3048, "us-ft": 1200 / 3937 };
const FAR = 1e9;

/**
 * `heights plan.json --from grid.tif [--from grid.tif.msk] --out out.json`: the plan with the heights of a file as its ground. What the
 * file leaves open is asked for and never guessed.
 */
export async function heightsVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("heights", args, {
    from: { type: "string", multiple: true },
    out: { type: "string" },
    projection: { type: "string" },
    up: { type: "string" },
    lander: { type: "string" },
    unit: { type: "string" },
    reach: { type: "string" },
    spacing: { type: "string" },
    unknown: { type: "string" },
  });
  const files = await Promise.all((values.from ?? []).map(readBytes));
  const sorted = files.length === 0 ? "say which file of heights: --from grid.tif" : heightsAmong(files);
  if (typeof sorted === "string") return refuse(sorted);
  const out = await checkOutput(values.out, path, "out.json");
  const plan = await readPlan(path);
  const { grid, beside } = sorted;
  const opened = await openHeights(grid.name, grid.bytes, beside);
  if (!opened.ok) return refuse(`${grid.name}: ${opened.error}`);
  const number = (name: "up" | "reach" | "spacing" | "unknown", least: number): number | undefined =>
    numberOption(name, values[name], { least, most: FAR, whole: false });
  const answers: HeightAnswers = {
    projection: values.projection,
    upDeg: number("up", -FAR),
    lander: landerOf(values.lander),
    metresPerHeight: metresOf(values.unit),
    unknown: number("unknown", -FAR),
    reachM: number("reach", 0),
    spacingM: number("spacing", 0),
  };
  const site = {
    latDeg: plan.site.latDeg,
    lonDeg: plan.site.lonDeg,
    radiusM: plan.body.radiusM,
    lander: plan.site.places.find(({ kind }) => kind === "lander"),
  };
  const taken = await takeHeights(opened.value, site, answers);
  if (!taken.ok)
    throw new Refusal([
      ...taken.error.map(({ about, words }) => `${grid.name}: ${words}${ASKED[about] ?? ""}`),
      ...opened.value.notes.map((note) => `${grid.name}: ${note}`),
    ]);
  await writeOutput(out, planText({ ...plan, ground: taken.value.ground }));
  streams.out([...takenWords(taken.value.taken), `Written to ${out}.`, ""].join("\n"));
  return 0;
}

/** By what a question is answered on the line. */
const ASKED: Readonly<Record<string, string>> = {
  projection: " Say it with --projection, or with --up and --lander.",
  unit: ` Say it with --unit ${Object.keys(METRES).join("|")}.`,
  unknown: " Say which value stands for unknown with --unknown.",
  size: " Take less with --reach or --spacing.",
};

async function readBytes(path: string): Promise<GivenFile> {
  try {
    const file = await readFile(path);
    return {
      name: basename(path),
      bytes: new Uint8Array(file).buffer,
    };
  } catch (error) {
    return refuse(`${path}: ${fileTrouble(error)}`);
  }
}

function metresOf(unit: string | undefined): number | undefined {
  if (unit === undefined) return undefined;
  const known = Object.entries(METRES).find(([name]) => name === unit);
  return known?.[1] ?? refuse(`--unit ${unit}: give ${Object.keys(METRES).join(", ")}`);
}

function landerOf(given: string | undefined): HeightAnswers["lander"] {
  if (given === undefined) return undefined;
  const [x = NaN, y = NaN, ...more] = given
    .split(",")
    .map((part) => (part.trim() === "" ? NaN : Number(part)));
  return Number.isFinite(x) && Number.isFinite(y) && more.length === 0
    ? { x, y }
    : refuse(`--lander ${given}: give x,y in the file's coordinates`);
}

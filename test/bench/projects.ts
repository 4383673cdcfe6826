import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { judgeFor } from "../../src/check/index.ts";
import { projectOf, projectRun } from "../../src/solver/project/index.ts";
import { processorSeconds } from "./clock.ts";
import { type Instance, planOf } from "./psplib.ts";

/** What is known of an instance: proved floor and best finish; null where it is proved that there is none. */
export type Known = { readonly floor: number; readonly best: number } | null;

/** A family of public instances. */
export interface Family {
  /** True for the names of files that hold an instance. */
  isInstance(file: string): boolean;
  read(text: string): Instance;
  /** Best-known values by file name, from the csv nearest to the folder. */
  known(row: readonly string[]): Known;
}

/** Runs every instance below the folder `args` names, judges each schedule, and prints a table by folder. */
export async function runFamily(family: Family, args: string[]): Promise<void> {
  const options = optionsOf(args);
  const groups = new Map<string, Line[]>();
  for (const file of filesIn(options.folder, family)
    .filter(({ name }) => options.only.test(name))
    .slice(0, options.limit)) {
    const line = await solve(family, file, options);
    const group = groups.get(file.group);
    if (group) group.push(line);
    else groups.set(file.group, [line]);
    if (options.verbose || line.suspect) console.log(wordsOf(line));
  }
  console.log(`processor seconds ${options.seconds}, seed ${options.seed}`);
  console.log(
    "set          n  infeasible  unsolved  mean gap %  worst gap %  optimal %  proved %  mean s  breaches  suspect  late ms",
  );
  for (const [group, lines] of groups) console.log(summary(group, lines));
}

interface Options {
  readonly folder: string;
  readonly seconds: number;
  readonly seed: number;
  readonly only: RegExp;
  readonly limit: number;
  readonly verbose: boolean;
}

function optionsOf(args: string[]): Options {
  const option = (name: string): string | undefined => {
    const at = args.indexOf(`--${name}`);
    return at < 0 ? undefined : args[at + 1];
  };
  const folder = args[0];
  if (folder === undefined || folder.startsWith("--")) throw new Error("give the folder of the instances");
  return {
    folder,
    seconds: Number(option("seconds") ?? 5),
    seed: Number(option("seed") ?? 1),
    only: new RegExp(option("only") ?? "."),
    limit: Number(option("limit") ?? Infinity),
    verbose: args.includes("--verbose"),
  };
}

interface File {
  readonly path: string;
  readonly name: string;
  readonly group: string;
  readonly known: Known | undefined;
}

/** Instances below `folder`, each with its value from the best-known.csv nearest above it. */
function filesIn(folder: string, family: Family, above = knownIn(join(folder, ".."), family)): File[] {
  const entries = readdirSync(folder, { withFileTypes: true }).sort((a, b) =>
    a.name.localeCompare(b.name, "en", { numeric: true }),
  );
  const own = knownIn(folder, family);
  const known = own.size > 0 ? own : above;
  return entries.flatMap((entry): File[] => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return filesIn(path, family, known);
    if (!family.isInstance(entry.name)) return [];
    return [
      {
        path,
        name: entry.name,
        group: folder.split("/").findLast((part) => part !== "") ?? folder,
        known: known.get(entry.name),
      },
    ];
  });
}

/** The values of the folder's best-known.csv; none where there is no such file. */
function knownIn(folder: string, family: Family): Map<string, Known> {
  const path = join(folder, "best-known.csv");
  if (!existsSync(path)) return new Map();
  const rows = readFileSync(path, "utf8").trim().split(/\r?\n/).slice(1);
  return new Map(rows.map((row) => row.split(",")).map(([name, ...rest]) => [name!, family.known(rest)]));
}

interface Line {
  readonly name: string;
  readonly known: Known | undefined;
  readonly finish: number | null;
  readonly floor: number;
  readonly proved: boolean;
  readonly seconds: number;
  /** The longest call of the run's step beyond the slice it was given, s: how late a stop may come. */
  readonly overrunS: number;
  readonly iterations: number;
  readonly breaches: number;
  /** Contradicts what is known: better than a proved floor, or a wrong proof. */
  readonly suspect: boolean;
}

/** One step of a run. */
const SLICE_S = 0.02;

async function solve(family: Family, { path, name, known }: File, { seconds, seed }: Options): Promise<Line> {
  const plan = planOf(family.read(readFileSync(path, "latin1")), name);
  const problem = projectOf(plan);
  if (!problem) throw new Error(`${name} is no project; maybe it has crewed tasks`);
  const run = projectRun(problem, { seed, seconds, clock: processorSeconds });
  let overrunS = 0;
  for (let going = true; going;) {
    const from = processorSeconds();
    going = run.step(SLICE_S);
    overrunS = Math.max(overrunS, processorSeconds() - from - SLICE_S);
    await Promise.resolve();
  }
  const progress = run.progress();
  const schedule = run.best();
  const { score } = judgeFor(plan)(schedule);
  const solved = schedule.placements.length > 0;
  // The judge's finish, from the placements: what the solver says of itself does not count.
  const finish = solved ? score.finishS : null;
  const proved = progress.stopped === "proved";
  const wrongFinish =
    known === null ? finish !== null : known !== undefined && finish !== null && finish < known.floor;
  const wrongProof =
    proved && known !== undefined && known !== null && (finish === null || finish > known.best);
  const wrongFloor = known !== undefined && known !== null && progress.floorS > known.best;
  return {
    name,
    known,
    finish,
    floor: progress.floorS,
    proved,
    seconds: progress.seconds,
    overrunS,
    iterations: progress.iterations,
    breaches: solved ? score.breaches + score.mustLeftOut : 0,
    suspect: wrongFinish || wrongProof || wrongFloor,
  };
}

function gapOf({ known, finish }: Line): number | null {
  return known && finish !== null ? (100 * (finish - known.best)) / known.best : null;
}

function wordsOf(line: Line): string {
  const gap = gapOf(line);
  return [
    line.name.padEnd(14),
    `finish ${line.finish ?? "none"}`.padEnd(14),
    `floor ${line.floor}`.padEnd(16),
    `known ${line.known ? `${line.known.floor} ${line.known.best}` : line.known === null ? "infeasible" : "?"}`.padEnd(
      18,
    ),
    `gap ${gap === null ? "-" : gap.toFixed(2)}`.padEnd(10),
    line.proved ? "proved" : "open  ",
    `${line.seconds.toFixed(2)} s ${line.iterations} iterations ${line.breaches} breaches${line.suspect ? " SUSPECT" : ""}`,
  ].join(" ");
}

function summary(group: string, lines: readonly Line[]): string {
  const gaps = lines.map(gapOf).filter((gap) => gap !== null);
  const share = (count: number): string => ((100 * count) / lines.length).toFixed(1);
  const sum = (value: (line: Line) => number): number =>
    lines.reduce((total, line) => total + value(line), 0);
  const infeasible = lines.filter((line) => line.finish === null && line.proved).length;
  const unsolved = lines.filter((line) => line.finish === null && !line.proved).length;
  // An instance proved infeasible counts as optimal: there is nothing better to say of it.
  const optimal = lines.filter((line) => {
    if (line.finish === null) return line.proved;
    return line.known ? line.finish <= line.known.best : line.proved;
  }).length;
  return [
    group.padEnd(9),
    String(lines.length).padStart(4),
    String(infeasible).padStart(11),
    String(unsolved).padStart(9),
    (gaps.reduce((total, gap) => total + gap, 0) / Math.max(gaps.length, 1)).toFixed(3).padStart(11),
    Math.max(...gaps, 0)
      .toFixed(2)
      .padStart(12),
    share(optimal).padStart(10),
    share(lines.filter((line) => line.proved).length).padStart(9),
    (sum((line) => line.seconds) / lines.length).toFixed(2).padStart(7),
    String(sum((line) => line.breaches)).padStart(9),
    String(lines.filter((line) => line.suspect).length).padStart(8),
    (1000 * Math.max(...lines.map((line) => line.overrunS))).toFixed(0).padStart(8),
  ].join(" ");
}

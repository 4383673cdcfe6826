import { readFileSync } from "node:fs";
import type { Shape } from "../../src/kernel/index.ts";
import { parseText, type Plan, type Schedule } from "../../src/plan/index.ts";
import { greedy } from "../../src/solver/index.ts";
import { oddsRun } from "../../src/solver/simulate/index.ts";
import { lateTableRun } from "../../src/solver/question/late/index.ts";
import { smallAll } from "../plan/witness.ts";
import { demoDay } from "../solver/question/late/demoDay.ts";

/**
 * 2,000 simulated days and the late table of the three ready plans (a full day each of small and demo, the large one
 * packed greedily): processor time of setting up, of the whole run, and of the longest slice of 12 ms; the chances.
 */
export async function run(): Promise<void> {
  const days: Readonly<Record<string, Schedule>> = { small: smallAll, demo: demoDay };
  console.log("plan    what          setup ms    run ms   longest slice ms   result");
  for (const name of ["small", "demo", "large"]) {
    const plan = read(`public/plans/${name}.json`);
    const schedule = days[name] ?? greedy(plan);
    for (const shape of ["pert", "triangular"] satisfies Shape[]) {
      const beganMs = cpuMs();
      const odds = oddsRun(plan, schedule, { days: 2000, seed: 1, shape, clock });
      const times = drive(odds, beganMs);
      print(name, shape, times, `home ${odds.report().home.words}, must-do ${odds.report().must.words}`);
    }
    const beganMs = cpuMs();
    const lateTable = lateTableRun(plan, schedule, { clock });
    const times = drive(lateTable, beganMs);
    const cells = lateTable.report().evas.flatMap(({ rows }) => rows.flatMap(({ late }) => late));
    print(
      name,
      "late tables",
      times,
      `${cells.length} cells, ${cells.filter(({ least }) => !least).length} cut short`,
    );
  }
}

interface Times {
  readonly setupMs: number;
  readonly runMs: number;
  readonly longestMs: number;
}

function drive(run: { step(sliceS: number): boolean }, beganMs: number): Times {
  const setupMs = cpuMs() - beganMs;
  let longestMs = 0;
  for (let more = true; more;) {
    const fromMs = cpuMs();
    more = run.step(0.012);
    longestMs = Math.max(longestMs, cpuMs() - fromMs);
  }
  return { setupMs, runMs: cpuMs() - beganMs - setupMs, longestMs };
}

function print(name: string, what: string, { setupMs, runMs, longestMs }: Times, result: string): void {
  const cells = [
    setupMs.toFixed(1).padStart(8),
    runMs.toFixed(0).padStart(9),
    longestMs.toFixed(1).padStart(18),
  ];
  console.log(`${name.padEnd(7)} ${what.padEnd(12)} ${cells.join(" ")}   ${result}`);
}

/** Processor time of this process, ms: what others on the machine do does not count. */
function cpuMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

function clock(): number {
  return performance.now() / 1000;
}

function read(path: string): Plan {
  const outcome = parseText(readFileSync(path, "utf8"));
  if (!outcome.ok)
    throw new Error(outcome.error.map((fault) => `${fault.path}: ${fault.message}`).join("\n"));
  return outcome.value;
}

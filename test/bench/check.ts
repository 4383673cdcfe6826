import { readFileSync } from "node:fs";
import { check, judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { parseText, type Placement, type Plan, type Schedule } from "../../src/plan/index.ts";
import { packRun } from "../../src/solver/index.ts";

/**
 * Median and worst time of one full judgement (the plan prepared anew) and of one drag re-check (the plan prepared
 * once, one task moved a minute a frame, as while dragging), for the three ready plans packed for a second.
 */
export async function run(): Promise<void> {
  console.log("plan    tasks placed   full median   drag median   drag 95 %   drag worst (ms)");
  for (const name of ["small", "demo", "large"]) {
    const plan = read(`public/plans/${name}.json`);
    const packing = packRun(plan, { seed: 1, seconds: 1, clock: () => performance.now() / 1000 });
    while (packing.step(50)) continue;
    const schedule = packing.best();
    // What is remembered of a plan is remembered of that very object.
    const anew = Array.from({ length: 23 }, () => structuredClone(plan));
    const full = times(20, () => check(anew.pop()!, schedule));
    const judge = judgeFor(plan);
    const frames = schedule.placements.flatMap((held) =>
      [-2, -1, 1, 2].map((by) => moved(schedule, held, by * 60)),
    );
    let frame = 0;
    const drag = times(frames.length, () => judge(frames[frame++ % frames.length]!));
    const cells = [
      name.padEnd(7),
      String(plan.tasks.length).padStart(5),
      String(schedule.placements.length).padStart(6),
      ...[at(full, 0.5), at(drag, 0.5), at(drag, 0.95), at(drag, 1)].map((ms) => ms.toFixed(3).padStart(12)),
    ];
    console.log(cells.join(" "));
  }
}

function read(path: string): Plan {
  const outcome = parseText(readFileSync(path, "utf8"));
  if (!outcome.ok)
    throw new Error(outcome.error.map((fault) => `${fault.path}: ${fault.message}`).join("\n"));
  return outcome.value;
}

function moved(schedule: Schedule, held: Placement, byS: number): Schedule {
  const swap = (one: Placement): Placement =>
    one === held ? { ...one, startS: instant(one.startS + byS) } : one;
  return { placements: schedule.placements.map(swap) };
}

/** Ascending milliseconds of `n` runs after a warm-up. */
function times(n: number, work: () => unknown): number[] {
  for (let warm = 0; warm < 3; warm += 1) work();
  const list: number[] = [];
  for (let i = 0; i < n; i += 1) {
    const from = performance.now();
    work();
    list.push(performance.now() - from);
  }
  return list.sort((a, b) => a - b);
}

function at(sorted: readonly number[], part: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]!;
}

import { instant, random, type Random } from "../kernel/index.ts";
import type { Placement, Plan, Schedule } from "../plan/index.ts";
import { compile } from "./compile/index.ts";
import { Day } from "./day.ts";
import { lay, scheduleOf } from "./placing.ts";
import { held } from "./pinned.ts";
import type { Problem } from "./problem.ts";
import { Recreate } from "./recreate.ts";
import { read, type Stand, Verifier } from "./verify.ts";
import { met, minutes, named } from "./words.ts";

export interface MendSettings {
  readonly seed: number;
  readonly seconds?: number | undefined;
  readonly iterations?: number | undefined;
  /** The caller's clock, seconds from anywhere. */
  readonly clock: () => number;
}

export interface Mended {
  readonly schedule: Schedule;
  /** One sentence for each change, in the plan's order of tasks. */
  readonly changes: readonly { readonly task: string; readonly sentence: string }[];
}

/** Rounds when the caller sets no limit of iterations. */
const ROUNDS = 40;

/**
 * A schedule without breach as near to `schedule` as the search finds: fewest tasks dropped, then fewest moved, then fewest
 * minutes moved. A sound schedule comes back as it is.
 *
 * Placements are let go one by one, always the one without which least is broken, until the rest is sound where it stands;
 * then the loose ones are put back, with the rest held where it is, or held from where it is so that it may slide
 * later. Rounds differ by chance in what is let go. Not proved to be the fewest.
 */
export function mend(plan: Plan, schedule: Schedule, settings: MendSettings): Mended {
  const problem = compile(plan);
  const { stands, unread } = read(problem, schedule);
  const verifier = new Verifier(problem);
  if (unread.length === 0 && verifier.holds(stands)) return { schedule, changes: [] };
  const strays = schedule.placements
    .map((one) => plan.tasks.findIndex((task) => task.id === one.task))
    .filter((a) => a >= 0 && !stands.some((stand) => stand.activity === a));
  const stream = random(settings.seed);
  const startS = settings.clock();
  const most = settings.iterations ?? ROUNDS;
  let best: { schedule: Schedule; cost: readonly number[] } | null = null;
  for (let round = 0; round < most; round += 1) {
    if (round > 0 && settings.clock() - startS > (settings.seconds ?? Infinity)) break;
    const noise = round < 2 ? 0 : 1;
    const { kept, loose } = letGo(verifier, stands, stream, noise);
    const made = putBack(verifier, kept, [...loose, ...strays], stream, round % 2 === 0 ? "at" : "from");
    if (!made) continue;
    const cost = costOf(schedule, made);
    if (!best || less(cost, best.cost)) best = { schedule: made, cost };
    if (cost[0] === 0 && cost[1]! <= 1) break;
  }
  const result = best?.schedule ?? { placements: [] };
  return { schedule: result, changes: changesOf(plan, schedule, result) };
}

/** Lets placements go until the rest is sound; must-do tasks and worthy ones last. */
function letGo(
  verifier: Verifier,
  stands: readonly Stand[],
  stream: Random,
  noise: number,
): { kept: Stand[]; loose: number[] } {
  const { worth, must } = verifier.problem;
  const dearest = worth.reduce((most, one) => Math.max(most, one), 1);
  let kept = [...stands];
  const loose: number[] = [];
  for (let faults = verifier.faults(kept).length; faults > 0;) {
    let best = { cost: Infinity, at: 0, faults: 0 };
    kept.forEach((stand, at) => {
      const left = verifier.faults(kept.filter((_, k) => k !== at)).length;
      const price = worth[stand.activity]! / dearest / 2 + (must[stand.activity] === 1 ? 0.45 : 0);
      const cost = left + price + noise * stream.next();
      if (cost < best.cost) best = { cost, at, faults: left };
    });
    loose.push(kept[best.at]!.activity);
    kept = kept.filter((_, k) => k !== best.at);
    faults = best.faults;
  }
  return { kept, loose };
}

/** The kept placements held, the loose ones put back where they fit; null when that is not sound. */
function putBack(
  verifier: Verifier,
  kept: readonly Stand[],
  loose: readonly number[],
  stream: Random,
  how: "at" | "from",
): Schedule | null {
  const { problem } = verifier;
  const day = new Day(held(problem, kept, how));
  const recreate = new Recreate(day, stream);
  if (lay(day, scheduleFrom(problem, kept)) > 0) return null;
  for (const a of loose) recreate.place(a, 0);
  dropUnmet(day);
  const schedule = scheduleOf(day.board);
  return verifier.holds(read(problem, schedule).stands) ? schedule : null;
}

function scheduleFrom(problem: Problem, stands: readonly Stand[]): Schedule {
  const { plan } = problem;
  return {
    placements: stands.map(({ activity, choice, startS }) => {
      const at = problem.choiceAt[choice]!;
      const routes = Array.from(
        { length: problem.crewCount[activity]! },
        (_, k) => problem.choiceRoutes[at + k]!,
      );
      return {
        task: plan.tasks[activity]!.id,
        eva: routes.length === 0 ? null : plan.evas[problem.evaOfRoute[routes[0]!]!]!.id,
        crew: routes.map((r) => plan.crew[problem.memberOfRoute[r]!]!.id),
        startS: instant(startS),
      };
    }),
  };
}

/** Takes off what needs something that is not there. */
function dropUnmet(day: Day): void {
  const { problem, board } = day;
  for (let again = true; again;) {
    again = false;
    for (let a = 0; a < problem.activities; a += 1) {
      if (board.placed[a] === 0 || problem.needs[a]!.every((b) => board.placed[b] === 1)) continue;
      day.unlink(a);
      again = true;
    }
  }
}

/** Dropped, moved to other people or another EVA or in time, seconds moved. */
function costOf(before: Schedule, after: Schedule): number[] {
  const now = new Map(after.placements.map((one) => [one.task, one]));
  let dropped = 0;
  let moved = 0;
  let seconds = 0;
  for (const one of before.placements) {
    const there = now.get(one.task);
    if (!there) dropped += 1;
    else if (differs(one, there)) {
      moved += 1;
      seconds += Math.abs(there.startS - one.startS);
    }
  }
  return [dropped, moved, seconds];
}

function differs(a: Placement, b: Placement): boolean {
  return (
    a.startS !== b.startS || a.eva !== b.eva || [...a.crew].sort().join(" ") !== [...b.crew].sort().join(" ")
  );
}

function less(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((value, k) => value !== b[k]);
  return at >= 0 && a[at]! < b[at]!;
}

function changesOf(plan: Plan, before: Schedule, after: Schedule): Mended["changes"] {
  const was = new Map(before.placements.map((one) => [one.task, one]));
  const now = new Map(after.placements.map((one) => [one.task, one]));
  const who = (one: Placement): string =>
    named(one.crew.map((id) => plan.crew.find((member) => member.id === id)?.name ?? id));
  return plan.tasks.flatMap((task) => {
    const old = was.get(task.id);
    if (!old) return [];
    const there = now.get(task.id);
    if (!there) return [{ task: task.id, sentence: `${task.name} goes back to the bench.` }];
    if (!differs(old, there)) return [];
    const parts: string[] = [];
    if (old.eva !== there.eva)
      parts.push(`moves to ${plan.evas.find((eva) => eva.id === there.eva)?.name ?? "no EVA"}`);
    if ([...old.crew].sort().join() !== [...there.crew].sort().join()) parts.push(`goes to ${who(there)}`);
    const byS = there.startS - old.startS;
    if (byS !== 0)
      parts.push(
        `starts at ${met(there.startS)}, ${minutes(Math.abs(byS), "up")} ${byS > 0 ? "later" : "earlier"}`,
      );
    return [{ task: task.id, sentence: `${task.name} ${named(parts)}.` }];
  });
}

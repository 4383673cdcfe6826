import { describe, expect, it } from "vitest";
import type { Verdict } from "../../src/answers/index.ts";
import { type Departures, judgeFor } from "../../src/check/index.ts";
import { booklets } from "../../src/exchange/index.ts";
import type { Page } from "../../src/exchange/paper/page.ts";
import { instant, type Instant, random } from "../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { wordsOf } from "../exchange/paper/reading.ts";
import { packedPlan } from "./packedPlan.ts";

/**
 * Paper obeyed to the letter: what is read here comes from the text of the printed pages alone, and is judged. Packed
 * plans break nothing; played to their paper they must break nothing either.
 */

const PLANS = 300;

const CLOCK = String.raw`-?\d+:\d\d(?::\d\d)?`;

/** A printed clock as seconds. */
function seconds(clock: string): number {
  const sign = clock.startsWith("-") ? -1 : 1;
  const [hours = 0, minutes = 0, rest = 0] = clock.replace("-", "").split(":").map(Number);
  return sign * (hours * 3600 + minutes * 60 + rest);
}

/** The one clock that `pattern` finds (its CLOCK group) in `words`, or null. */
function clockIn(words: string, pattern: string): number | null {
  const found = new RegExp(pattern.replaceAll("CLOCK", `(${CLOCK})`)).exec(words);
  return found?.[1] === undefined ? null : seconds(found[1]);
}

/** One task on one crew member's paper. */
interface Told {
  readonly crew: string;
  readonly eva: string;
  readonly task: string;
  readonly startS: number;
  /** Null where it says at once, or that no walk leads there. */
  readonly leaveByS: number | null;
  readonly atOnce: boolean;
  readonly words: string;
}

/** A day as its paper tells it. */
interface OnPaper {
  readonly schedule: Schedule;
  readonly egressS: ReadonlyMap<string, Instant>;
  readonly ingressS: ReadonlyMap<string, Instant>;
  readonly noLaterS: ReadonlyMap<string, number>;
  readonly told: readonly Told[];
}

function read(plan: Plan, pages: readonly Page[]): OnPaper {
  const told: Told[] = [];
  const egressS = new Map<string, Instant>();
  const ingressS = new Map<string, Instant>();
  const noLaterS = new Map<string, number>();
  let leave: Pick<Told, "leaveByS" | "atOnce"> = { leaveByS: null, atOnce: false };
  for (const page of pages) {
    const [, crew, eva, what] = /^(\w+), (\w+): (.*)$/.exec(page.name) ?? [];
    if (crew === undefined || eva === undefined || what === undefined) continue;
    const words = wordsOf(page);
    if (what === "at a glance") {
      egressS.set(eva, instant(clockIn(words, "OUT CLOCK")!));
      ingressS.set(eva, instant(clockIn(words, "HATCH SHUT CLOCK")!));
      noLaterS.set(eva, clockIn(words, "NEVER AFTER CLOCK")!);
      continue;
    }
    if (plan.tasks.some(({ id }) => id === what))
      told.push({ crew, eva, task: what, startS: clockIn(words, " START CLOCK")!, ...leave, words });
    // When to leave for the next task stands on the page of what is done before it.
    if (!what.endsWith("(continued)"))
      leave = { leaveByS: clockIn(words, "LEAVE HERE BY CLOCK"), atOnce: words.includes("LEAVE AT ONCE") };
  }
  const placements = plan.schedule.placements.map((placement) => {
    const own = told.filter(({ task }) => task === placement.task);
    if (placement.crew.length === 0) return placement;
    // Everybody's paper tells the same start.
    expect(new Set(own.map(({ startS }) => startS)).size, placement.task).toBe(1);
    return { ...placement, startS: instant(own[0]!.startS) };
  });
  return { schedule: { placements }, egressS, ingressS, noLaterS, told };
}

/** The day on which each of `told` leaves when `when` says. */
function playing(
  { egressS, ingressS, told }: OnPaper,
  when: (told: Told, leaveByS: number) => number | null,
): Departures {
  const leaveS = new Map<string, Map<string, Instant>>();
  for (const one of told) {
    const atS = one.leaveByS === null ? null : when(one, one.leaveByS);
    if (atS === null) continue;
    const own = leaveS.get(one.crew) ?? new Map<string, Instant>();
    leaveS.set(one.crew, own.set(one.task, instant(atS)));
  }
  return { egressS, ingressS, leaveS };
}

const broken = ({ findings }: Verdict): string[] =>
  findings.filter(({ level }) => level === "breach").map(({ sentence }) => sentence);

/** Waiting and restful work of `crew`, where it lies between two moments without a gap. */
function restsThrough(verdict: Verdict, plan: Plan, crew: string, fromS: number, toS: number): boolean {
  let atS = fromS;
  for (const { crew: who, stretches } of verdict.outings) {
    if (who !== crew) continue;
    for (const { kind, span, task } of stretches) {
      const restful =
        kind === "wait" || plan.tasks.some(({ id, effort }) => id === task && effort === "rest");
      if (restful && span.startS <= atS && atS < span.endS) atS = span.endS;
    }
  }
  return atS >= toS;
}

/** What is printed of one task that is not on the safe side of what the judge has, in words. */
function unsafe(plan: Plan, verdict: Verdict, late: Verdict, one: Told): string[] {
  const faults: string[] = [];
  const task = plan.tasks.find(({ id }) => id === one.task)!;
  const endS = one.startS + task.duration.likelyS;
  const outing = verdict.outings.find(({ eva, crew }) => eva === one.eva && crew === one.crew)!;
  const k = outing.stretches.findIndex((stretch) => stretch.task === one.task);
  const way = outing.stretches.slice(0, k).findLast(({ kind }) => kind !== "wait");
  const wayS = way?.kind === "traverse" ? way.span.endS - way.span.startS : 0;
  if (one.leaveByS !== null && one.leaveByS > one.startS - wayS) faults.push("leaves too late");
  const track = verdict.reach.find(({ eva, crew }) => eva === one.eva && crew === one.crew)!;
  const worstS = Math.max(
    ...track.points.filter(({ atS }) => one.startS <= atS && atS <= endS).map(({ value }) => value),
  );
  const said = /HOME (?:\d+° )?(here|\d+ min)/.exec(one.words)?.[1];
  const minutes = said === "here" ? 0 : Number.parseInt(said ?? "", 10);
  if (!(minutes * 60 >= worstS && minutes * 60 < worstS + 60))
    faults.push(`walk-back ${minutes} min for ${worstS} s`);
  const only = new RegExp(`ONLY (${CLOCK}) to (${CLOCK})`).exec(one.words);
  if (task.windows.length > 0 && !only) faults.push("no window");
  if (only) {
    const [from, to] = [seconds(only[1]!), seconds(only[2]!)];
    if (!task.windows.some(({ startS, endS: closesS }) => startS <= from && to <= closesS))
      faults.push(`window ${from} to ${to} is none of the task's`);
    if (from > one.startS || to < endS) faults.push("the task is not inside the window printed");
  }
  const rest = new RegExp(`REST (\\d+) min(?: (\\d+) s)?, .*? until (${CLOCK})`).exec(one.words);
  const relied = late.rests.find(({ crew, before }) => crew === one.crew && before === one.task);
  if (!rest !== !relied) faults.push("a rest is printed and not counted, or counted and not printed");
  if (rest) {
    const untilS = seconds(rest[3]!);
    const needS = Number(rest[1]) * 60 + Number(rest[2] ?? 0);
    if (needS < plan.rules.work.restS) faults.push(`a rest of ${needS} s`);
    if (!restsThrough(late, plan, one.crew, untilS - needS, untilS))
      faults.push("no rest where it is printed");
  }
  return faults;
}

describe("a day played to its paper", () => {
  it(`breaks nothing, and every figure printed is on the safe side, on ${PLANS} packed plans`, () => {
    const seen = { leaves: 0, atOnce: 0, rests: 0, windows: 0 };
    for (let seed = 1; seed <= PLANS; seed += 1) {
      const plan = packedPlan(seed);
      const judge = judgeFor(plan);
      const verdict = judge(plan.schedule);
      expect(broken(verdict), `seed ${seed}, as packed`).toEqual([]);
      const paper = read(plan, booklets(plan, verdict).pages);
      expect(paper.schedule, `seed ${seed}`).toEqual(plan.schedule);
      const played = (when: Parameters<typeof playing>[1]): Verdict =>
        judge(paper.schedule, playing(paper, when));
      const judged = (how: string, verdictThen: Verdict): void =>
        expect(broken(verdictThen), `seed ${seed}, ${how}`).toEqual([]);
      const late = played((_, leaveByS) => leaveByS);
      judged("everybody at the last moment", late);
      judged(
        "everybody at once",
        played(() => null),
      );
      for (const { id } of plan.crew)
        judged(
          `${id} alone at once`,
          played((one, leaveByS) => (one.crew === id ? null : leaveByS)),
        );
      const stream = random(seed);
      for (let k = 0; k < 12; k += 1) {
        // Up to twenty minutes before the last moment; before the work is done is at once.
        judged(
          `mixture ${k}`,
          played((_, leaveByS) => leaveByS - stream.below(1200)),
        );
      }
      for (const one of paper.told) {
        expect(unsafe(plan, verdict, late, one), `seed ${seed}, ${one.crew}, ${one.task}`).toEqual([]);
        if (one.leaveByS !== null) seen.leaves += 1;
        if (one.atOnce) seen.atOnce += 1;
        if (one.words.includes("REST")) seen.rests += 1;
        if (one.words.includes("ONLY")) seen.windows += 1;
      }
      for (const eva of plan.evas) {
        const egressS = paper.egressS.get(eva.id);
        const ingressS = paper.ingressS.get(eva.id);
        const noLaterS = paper.noLaterS.get(eva.id);
        if (egressS === undefined || ingressS === undefined || noLaterS === undefined) continue;
        const bounds = [
          eva.latestIngressS,
          egressS + eva.longestS,
          plan.stay.lengthS,
          ...plan.stay.blocks
            .filter(
              ({ crew, startS }) =>
                startS > egressS && (crew.length === 0 || crew.some((id) => eva.crew.includes(id))),
            )
            .map(({ startS }) => startS),
        ];
        expect(noLaterS, `seed ${seed}, ${eva.id}`).toBeLessThanOrEqual(Math.min(...bounds));
        expect(noLaterS, `seed ${seed}, ${eva.id}`).toBeGreaterThanOrEqual(ingressS);
      }
    }
    // Nothing of this is empty.
    for (const count of Object.values(seen)) expect(count).toBeGreaterThan(PLANS / 10);
  });
});

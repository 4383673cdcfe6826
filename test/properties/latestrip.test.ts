import { describe, expect, it } from "vitest";
import type { Verdict } from "../../src/answers/index.ts";
import { judgeFor } from "../../src/check/index.ts";
import { booklets } from "../../src/exchange/index.ts";
import type { Page } from "../../src/exchange/paper/page.ts";
import { duration, instant } from "../../src/kernel/index.ts";
import type { Placement, Plan } from "../../src/plan/index.ts";
import { lateTableRun } from "../../src/solver/question/late/index.ts";
import { walksOf } from "../../src/terrain/index.ts";
import { taskNumber } from "../../src/words/index.ts";
import { wordsOf } from "../exchange/paper/reading.ts";
import { columnsOf, secondsOf, type Told, toldBy } from "../exchange/paper/readstrip.ts";
import { packedPlan } from "./packedPlan.ts";

/**
 * Late strips obeyed to the letter: what is done is read from the printed pages alone (times, numbers, orders, rests), played by a crew that knows
 * nothing else, and judged. No answer may break what the plan does not, and no rest that the work limit needs may be one that nobody was told of.
 */

const PLANS = Number(process.env["LATE_PLANS"] ?? 16);
const FIRST = Number(process.env["LATE_FIRST"] ?? 1);

/** What a page says that its task begins AFTER, or what the ground's sheet has. */
interface After {
  readonly task: string;
  readonly end: "start" | "end";
  readonly leastS: number;
}

/** By task, read from the pages; what the ground waits for, from the links that its sheet tells of (`rows.test`). */
function aftersOf(plan: Plan, pages: readonly Page[]): ReadonlyMap<string, readonly After[]> {
  const byNumber = new Map(plan.tasks.map(({ id }) => [taskNumber(plan, id), id]));
  const tasks = new Set(plan.tasks.map(({ id }) => id));
  const afters = new Map<string, After[]>();
  for (const page of pages) {
    const what = /: ([\w-]+)$/.exec(page.name)?.[1] ?? "";
    // What is only to be done after something may begin before it.
    const [, said] = /(?<! DONE) AFTER (.*)$/.exec(wordsOf(page)) ?? [];
    if (said === undefined || !tasks.has(what)) continue;
    const one =
      /(?:[\w+-]+ )?(\S+) (done|begun)(?:, (?:(\d+) (?:min or more|to \d+ min)|within \d+ min))?(?:; |$| )/y;
    const found: After[] = [];
    for (let more = true; more;) {
      const [whole = "", number = "", how, least = "0"] = one.exec(said) ?? [];
      const task = byNumber.get(number);
      if (task === undefined) throw new Error(`"${said}" on ${page.name} is after no task`);
      found.push({ task, end: how === "done" ? "end" : "start", leastS: Number(least) * 60 });
      more = whole.endsWith("; ");
    }
    afters.set(what, found);
  }
  const ground = new Set(
    plan.schedule.placements.filter(({ crew }) => crew.length === 0).map(({ task }) => task),
  );
  for (const link of plan.links)
    if (
      link.type === "lag" &&
      ground.has(link.to.task) &&
      link.to.end === "start" &&
      (link.leastS ?? -1) >= 0
    )
      afters.set(link.to.task, [
        ...(afters.get(link.to.task) ?? []),
        { task: link.from.task, end: link.from.end, leastS: link.leastS! },
      ]);
  return afters;
}

/**
 * The day on which `late` ends at `doneS` and everybody does what they are told, their pages hold for the rest. A rest that no page tells of is counted from
 * `sinceS` on, or from arrival.
 */
function played(
  plan: Plan,
  verdict: Verdict,
  late: Placement,
  doneS: number,
  told: Told,
  afters: ReadonlyMap<string, readonly After[]>,
  sinceS: number,
): Placement[] {
  const walks = walksOf(plan);
  const tasks = new Map(plan.tasks.map((one) => [one.id, one]));
  const pages = new Set(verdict.rests.map(({ eva, crew, before }) => `${eva} ${crew} ${before}`));
  const isGround = ({ crew }: Placement): boolean => crew.length === 0;
  const onEva = plan.schedule.placements.filter((one) => one.eva === late.eva && !isGround(one));
  // What has begun when it is known: not what waits for whoever is late, nor for whoever waits for them.
  const begun = new Set<Placement>();
  const waiting = new Map(late.crew.map((id) => [id, late.startS]));
  for (const one of onEva.toSorted((a, b) => a.startS - b.startS)) {
    const waits = one.crew.some((id) => one.startS > (waiting.get(id) ?? Infinity));
    if (!waits && one.startS < doneS) begun.add(one);
    if (waits) for (const id of one.crew) if (!waiting.has(id)) waiting.set(id, one.startS);
  }
  const isOut = (one: Placement): boolean => one.startS >= doneS && told.leaveOut.has(one.task);
  const queues = new Map(
    plan.crew.map(({ id }) => {
      const own = onEva.filter(({ crew }) => crew.includes(id)).toSorted((a, b) => a.startS - b.startS);
      const stays = own.filter((one) => begun.has(one) || !(told.home || told.leaveOut.has(one.task)));
      const turned = told.then.get(id);
      if (!turned) return [id, stays] as const;
      return [
        id,
        [
          ...own.filter((one) => begun.has(one)),
          ...turned.map((task) => own.find((one) => one.task === task)!),
        ],
      ] as const;
    }),
  );
  const at = new Map<string, { readonly placeId: string; readonly endS: number; readonly restedS: number }>();
  const out: Placement[] = [];
  const spans = new Map<string, { readonly startS: number; readonly endS: number }>();
  const put = (one: Placement, startS: number): void => {
    const likelyS = tasks.get(one.task)!.duration.likelyS;
    const endS = one.task === late.task ? doneS : startS + likelyS;
    spans.set(one.task, { startS, endS });
    out.push({ ...one, startS: instant(startS) });
  };
  const held = (one: Placement): number => Math.max(one.startS, told.fromS.get(one.task) ?? one.startS);
  // EVAs on other days go as planned, but for what is left out or held back.
  for (const one of plan.schedule.placements)
    if (one.eva !== late.eva && !isGround(one) && !isOut(one)) put(one, held(one));
  let ground = plan.schedule.placements.filter((one) => isGround(one) && !isOut(one));
  for (;;) {
    const heads = [...queues.values()].flatMap(([head]) => head ?? []);
    const together = heads.filter((one) => one.crew.every((id) => queues.get(id)?.[0] === one));
    const left = new Set([...[...queues.values()].flat(), ...ground].map(({ task }) => task));
    const open = [...together, ...ground];
    const free = open.filter((one) => (afters.get(one.task) ?? []).every(({ task }) => !left.has(task)));
    const next = (free.length > 0 ? free : open)
      .map((one) => ({ one, startS: startOf(one) }))
      .toSorted((a, b) => a.startS - b.startS)[0];
    if (!next) break;
    const { one, startS } = next;
    const task = tasks.get(one.task)!;
    put(one, startS);
    ground = ground.filter((other) => other !== one);
    const { endS } = spans.get(one.task)!;
    for (const id of one.crew) {
      queues.set(id, queues.get(id)!.slice(1));
      at.set(id, {
        placeId: task.endPlace ?? task.place!,
        endS,
        restedS: task.effort === "rest" ? endS - startS : 0,
      });
    }
  }
  // Nobody waits for somebody who waits for them.
  expect([...queues.values()].flat()).toEqual([]);
  return out;

  function startOf(one: Placement): number {
    const after = (afters.get(one.task) ?? []).flatMap(({ task, end, leastS }) => {
      const span = spans.get(task);
      return span ? [(end === "end" ? span.endS : span.startS) + leastS] : [];
    });
    if (isGround(one)) return Math.max(held(one), ...after);
    const place = tasks.get(one.task)!.place!;
    const ready = one.crew.flatMap((id) => {
      const before = at.get(id);
      if (!before) return [];
      const onPage = pages.has(`${one.eva} ${id} ${one.task}`);
      const rests = onPage || told.rests.has(`${id} ${one.task}`);
      const restS = rests ? Math.max(0, plan.rules.work.restS - before.restedS) : 0;
      const thereS = before.endS + (walks.secondsS(before.placeId, place) ?? Infinity);
      return [(restS > 0 && !onPage ? Math.max(thereS, sinceS) : thereS) + restS];
    });
    const isFree = told.onArrival && one.startS !== late.startS && one.crew.every((id) => told.then.has(id));
    const isTurned = isFree && one.crew.every((id) => told.then.get(id)!.includes(one.task));
    const window = tasks
      .get(one.task)!
      .windows.find(({ startS, endS }) => startS <= one.startS && one.startS < endS);
    const soonestS = isTurned ? Math.max(doneS, window?.startS ?? doneS) : one.startS;
    return Math.max(soonestS, told.fromS.get(one.task) ?? soonestS, ...after, ...ready);
  }
}

const broken = ({ findings }: Verdict): string[] =>
  findings.filter(({ level }) => level === "breach").map(({ sentence }) => sentence);

describe("a late day played to the strip of its page", () => {
  it(`breaks nothing and needs no rest that nobody is told of, on ${PLANS} packed plans`, () => {
    const seen = { answers: 0, between: 0, dropped: 0, turned: 0, held: 0, rests: 0, home: 0, after: 0 };
    for (let seed = FIRST; seed < FIRST + PLANS; seed += 1) {
      const plan = packedPlan(seed);
      const verdict = judgeFor(plan)(plan.schedule);
      const run = lateTableRun(plan, plan.schedule, { minutes: [5, 10, 20, 40], clock: () => 0 });
      while (run.step(1)) continue;
      const { pages } = booklets(plan, verdict, { lateTable: run.report() });
      const afters = aftersOf(plan, pages);
      seen.after += afters.size;
      for (const page of pages) {
        const [, me = "", eva, what] =
          /^([\w-]+), ([\w-]+): ([\w-]+)(?: \(continued\))?$/.exec(page.name) ?? [];
        const late = plan.schedule.placements.find((one) => one.task === what && one.eva === eva);
        if (!late) continue;
        const likelyS = plan.tasks.find(({ id }) => id === what)!.duration.likelyS;
        let sinceS = late.startS + likelyS;
        for (const column of columnsOf(page)) {
          const told = toldBy(plan, column, me);
          const doneS = secondsOf(column.doneBy);
          const moments = [doneS, Math.floor((sinceS + doneS) / 120) * 60].filter((one) => one > sinceS);
          sinceS = doneS;
          if (!told) continue;
          for (const [k, momentS] of moments.entries()) {
            const longer = {
              ...plan,
              tasks: plan.tasks.map((one) =>
                one.id === what ? { ...one, duration: { likelyS: duration(momentS - late.startS) } } : one,
              ),
            };
            for (const sinceS of told.rests.size > 0 ? [-Infinity, momentS] : [-Infinity]) {
              const placements = played(plan, verdict, late, momentS, told, afters, sinceS);
              const then = judgeFor(longer)({ placements });
              const where = `seed ${seed}, ${page.name}, done at ${momentS} s: ${JSON.stringify(column)}`;
              expect(broken(then), where).toEqual([]);
              const untold = then.rests.filter(
                ({ eva: on, crew, before }) =>
                  !verdict.rests.some(
                    (one) => one.eva === on && one.crew === crew && one.before === before,
                  ) && !told.rests.has(`${crew} ${before}`),
              );
              expect(untold, where).toEqual([]);
            }
            if (k > 0) seen.between += 1;
          }
          seen.answers += 1;
          if (told.leaveOut.size > 0) seen.dropped += 1;
          if (told.then.size > 0) seen.turned += 1;
          if (told.fromS.size > 0) seen.held += 1;
          if (told.rests.size > 0) seen.rests += 1;
          if (told.home) seen.home += 1;
        }
      }
    }
    // Another order is worth its while on hardly any of these small days: `lateorder.test` has it by itself.
    for (const [what, count] of Object.entries(seen))
      if (what !== "turned") expect(count, what).toBeGreaterThan(0);
  });
});

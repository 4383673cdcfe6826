import { describe, expect, it } from "vitest";
import { check } from "../../../../src/check/index.ts";
import { booklets } from "../../../../src/exchange/index.ts";
import type { Page } from "../../../../src/exchange/paper/page.ts";
import type { Row } from "../../../../src/exchange/paper/sheets/body.ts";
import { givenOf } from "../../../../src/exchange/paper/sheets/given.ts";
import { lateBody } from "../../../../src/exchange/paper/sheets/late.ts";
import { printedDay } from "../../../../src/exchange/paper/leaving/printedday.ts";
import type { Plan } from "../../../../src/plan/index.ts";
import { lateTableRun } from "../../../../src/solver/question/late/index.ts";
import { crewName, evaName, taskNumber } from "../../../../src/words/index.ts";
import { readyPlan } from "../../../readyplan.ts";
import { wordsOf } from "../reading.ts";
import { columnsOf, secondsOf, type Told, toldBy } from "../readstrip.ts";
import { packed } from "./facts.ts";

/** Cuff pages and the sheet "If late" of one day, read off paper: about a moment that both speak of they say the same. */

/** One lateness as the sheet has it; null where it has no answer. */
interface SheetAnswer {
  readonly minutes: readonly number[];
  readonly told: Told | null;
}

const NOTHING: Told = {
  ...{ home: false, leaveOut: new Set<string>(), then: new Map<string, readonly string[]>() },
  ...{ onArrival: false, fromS: new Map<string, number>(), rests: new Set<string>() },
};

/** The rows of one table, by the task that leads them. */
function sheetAnswers(plan: Plan, rows: readonly Row[]): Map<string, SheetAnswer[]> {
  const byNumber = new Map(plan.tasks.map(({ id }) => [taskNumber(plan, id), id]));
  const byName = new Map(plan.crew.map(({ id, name }) => [name, id]));
  const tasks = (words: string): string[] => words.split(/[ ,]+/).flatMap((one) => byNumber.get(one) ?? []);
  const answers = new Map<string, SheetAnswer[]>();
  let own: SheetAnswer[] = [];
  for (const { leads, cells } of rows) {
    const [late, , out, does] = cells.map(({ text, under }) => `${text}; ${under ?? ""}`);
    if (leads === true) answers.set(byNumber.get(cells[0]?.number ?? "") ?? "", (own = []));
    else if (/^\d[\d, ]* min; /.test(late ?? "")) {
      const minutes = late!.split(/\D+/).filter(Boolean).map(Number);
      own.push({ minutes, told: cells[2]?.span === 2 ? whole(out ?? "") : part(out ?? "", does ?? "") });
    } else if (late === "; " && own.at(-1)?.told) {
      const { minutes, told } = own.pop()!;
      const next = part("", does ?? "");
      const then = new Map([...told!.then, ...next.then]);
      const [onArrival, fromS, rests] = [next.onArrival, next.fromS, next.rests];
      own.push({ minutes, told: { ...told!, then, onArrival, fromS, rests } });
    }
  }
  return answers;

  function whole(says: string): Told | null {
    if (/^END: walk home; /.test(says)) return { ...NOTHING, home: true };
    return says.startsWith("GO ON as planned") ? part("", says) : null;
  }

  function part(out: string, does: string): Told {
    const order = /^(\S+): ([\d, ]+|home)/.exec(does);
    const held = [...does.matchAll(/(\S+) from (\S+?)(?=[,;]|$)/g)];
    const rests = [...(/REST \d+ MIN ([^;]*)/.exec(does)?.[1] ?? "").matchAll(/(\S+) before ([\d ]+)/g)];
    return {
      home: false,
      leaveOut: new Set(tasks(out.replace(/;/g, ""))),
      then: new Map(order ? [[byName.get(order[1] ?? "") ?? "", tasks(order[2] ?? "")] as const] : []),
      onArrival: does.includes("START on arrival"),
      fromS: new Map(held.map(([, number = "", at = ""]) => [byNumber.get(number) ?? "", secondsOf(at)])),
      rests: new Set(
        rests.flatMap(([, who = "", list = ""]) => tasks(list).map((id) => `${byName.get(who)} ${id}`)),
      ),
    };
  }
}

/** What the cuff says of a task that is done at `doneS`: null for a call, undefined where its strip does not reach. */
function cuffAnswer(plan: Plan, page: Page, me: string, doneS: number): Told | null | undefined {
  const columns = columnsOf(page);
  if (columns.length === 0)
    return /IF LATE call: (no tested answer|\d+ min)/.test(wordsOf(page)) ? null : undefined;
  const column = columns.find(({ doneBy }) => Math.floor(doneS / 60) * 60 <= secondsOf(doneBy));
  return column && (toldBy(plan, column, me) ?? undefined);
}

function agreement(plan: Plan, minutes: readonly number[]) {
  const verdict = check(plan);
  const run = lateTableRun(plan, plan.schedule, { minutes, clock: () => 0 });
  while (run.step(1)) continue;
  const lateTable = run.report();
  const day = printedDay(plan);
  const { pages } = booklets(plan, verdict, { day, lateTable });
  const body = lateBody(givenOf({ plan, verdict, day, lateTable, sunDeg: () => null }));
  const rows = body.sections.flatMap((one) => (one.kind === "table" ? one.rows : []));
  const sheet = sheetAnswers(plan, rows);
  const seen = { goOn: 0, others: 0, called: 0, foundOnly: 0 };
  const printed = lateTable.evas.flatMap(({ eva, rows: of }) =>
    of.flatMap((row) => row.crew.map((me) => ({ eva, row, me }))),
  );
  for (const { eva, row, me } of printed) {
    const what = row.task;
    const name = `${crewName(plan, me)}, ${evaName(plan, eva)}: ${what}`;
    // The strip stands on the last page of a task.
    const page = pages.findLast((one) => one.name === name || one.name === `${name} (continued)`)!;
    for (const { minutes, told } of sheet.get(what) ?? [])
      for (const by of minutes) {
        const cuff = cuffAnswer(plan, page, me, row.endS + by * 60);
        if (cuff === undefined) continue;
        expect(told, `${page.name}, ${by} min late`).toEqual(cuff);
        const found = row.late.find((cell) => cell.minutes === by)!.kind;
        if (cuff === null) seen.called += 1;
        else if (cuff.leaveOut.size + cuff.then.size > 0 || cuff.home) seen.others += 1;
        else seen.goOn += 1;
        if (cuff === null && found === "keep") seen.foundOnly += 1;
      }
  }
  return seen;
}

/** Several tasks may have one name, and pages are found by it. */
function namedById(plan: Plan): Plan {
  return { ...plan, tasks: plan.tasks.map((task) => ({ ...task, name: task.id })) };
}

describe("the two papers about being late", () => {
  it("agree about every moment of the demo, where neither says GO ON to what was found and not tested", () => {
    const seen = agreement(namedById(packed(readyPlan("demo"), 200)), [5, 10, 20, 30, 45]);
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(0);
  });

  it("agree about the first EVA of the large plan", () => {
    const plan = namedById(packed(readyPlan("large"), 40));
    const placements = plan.schedule.placements.filter(({ eva }) => eva === plan.evas[0]?.id);
    const seen = agreement({ ...plan, schedule: { placements } }, [5, 20]);
    expect(seen.goOn + seen.others).toBeGreaterThan(0);
    expect(seen.called).toBeGreaterThan(0);
  });
});

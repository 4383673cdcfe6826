import { expect } from "vitest";
import type { LagLink, Plan } from "../../src/plan/index.ts";
import { taskNumber } from "../../src/words/index.ts";

/**
 * What a page says that its task begins, or is done, AFTER: every line of it is a link of the plan, its minutes on the safe side, and the plan's own times
 * keep it.
 */

const LINE =
  /(?:\S+ )?(?<number>\d+) (?<how>done|begun)(?:, (?:(?<least>\d+)(?: to (?<to>\d+) min| min or more)|within (?<within>\d+) min))?/;

/** The lines of one row. */
function linesOf(words: string, label: string): RegExpExecArray[] {
  const lines: RegExpExecArray[] = [];
  let left = new RegExp(` ${label} (?=(?:\\S+ )?\\d+ (?:done|begun))(.*)`).exec(words)?.[1] ?? "";
  for (;;) {
    const line = LINE.exec(left);
    if (line?.index !== 0) return lines;
    lines.push(line);
    left = left.slice(line[0].length).replace(/^; /, "");
  }
}

/** Holds the rows of a task's first page; so many lines are looked at. */
export function waitRows(plan: Plan, name: string, words: string, task: string): number {
  const begun = linesOf(words.replace(/DONE AFTER /g, "DONE-AFTER "), "AFTER");
  const done = linesOf(words, "DONE AFTER");
  const momentS = (id: string, end: "start" | "end"): number => {
    const startS = plan.schedule.placements.find((one) => one.task === id)!.startS;
    return end === "start" ? startS : startS + plan.tasks.find((one) => one.id === id)!.duration.likelyS;
  };
  for (const [lines, own] of [
    [begun, "start"],
    [done, "end"],
  ] as const)
    for (const { 0: said, groups } of lines) {
      const { number, how, least, to, within } = groups!;
      const other = plan.tasks.find(({ id }) => taskNumber(plan, id) === number)!.id;
      const end = how === "done" ? "end" : "start";
      const bounds = plan.links.flatMap((one) =>
        one.type === "lag" ? boundsOf(one, { task, end: own }, { task: other, end }) : [],
      );
      const greatest = to ?? within;
      expect(
        bounds.some(
          ([leastS, greatestS]) =>
            Math.ceil(Math.max(0, leastS) / 60) === Number(least ?? 0) &&
            (greatest === undefined
              ? greatestS === Infinity
              : Math.floor(greatestS / 60) === Number(greatest)),
        ),
        `${name}: ${said} is a link`,
      ).toBe(true);
      // No page says AFTER what is planned for later, unless the plan is broken there.
      const lagS = momentS(task, own) - momentS(other, end);
      const isKept = bounds.every(([leastS, greatestS]) => leastS <= lagS && lagS <= greatestS);
      if (isKept) expect(lagS, `${name}: ${said}`).toBeGreaterThanOrEqual(0);
    }
  return begun.length + done.length;
}

/** How much later than the one end the other one is at least and at most by a link, s; nothing where it is of others. */
function boundsOf(
  { from, to, ...lag }: LagLink,
  own: LagLink["to"],
  other: LagLink["to"],
): [number, number][] {
  const leastS: number = lag.leastS ?? -Infinity;
  const greatestS: number = lag.greatestS ?? Infinity;
  const isOf = (a: LagLink["to"], b: LagLink["to"]): boolean => a.task === b.task && a.end === b.end;
  return [
    ...(isOf(to, own) && isOf(from, other) ? [[leastS, greatestS] as [number, number]] : []),
    ...(isOf(from, own) && isOf(to, other) ? [[-greatestS, -leastS] as [number, number]] : []),
  ];
}

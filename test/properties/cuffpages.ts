import { expect } from "vitest";
import { check, goIfs, homeIfs, waysHome } from "../../src/check/index.ts";
import { booklets, toPdf } from "../../src/exchange/index.ts";
import { printedDay } from "../../src/exchange/paper/leaving/printedday.ts";
import { CAP, MM_PER_PT } from "../../src/exchange/paper/type.ts";
import type { GoIf, HomeIf, LateReport, Outing, Verdict } from "../../src/answers/index.ts";
import type { Plan, Step } from "../../src/plan/index.ts";
import { lateTableRun } from "../../src/solver/question/late/index.ts";
import { clock, metres, minutes, taskNumber } from "../../src/words/index.ts";
import { crossings } from "../exchange/paper/reading.ts";
import { type PdfPage, readPdf, testFaces } from "../exchange/paper/readpdf.ts";
import { packedPlan } from "./packedPlan.ts";
import { partnerRows } from "./partnerrows.ts";
import { waitRows } from "./waitrows.ts";

/** The cuff pages of packed random plans, with their late strips, as they stand in the file: sizes, places and words are read from the PDF's own text boxes. */

/** Late by so many minutes: the late table of the plan's own schedule, whole. */
const LATE = [5, 10, 20, 40];

/** Steps of every form, and long ones. */
function withSteps(plan: Plan, seed: number): Plan {
  const caution = { class: "warning" as const, text: "The lip breaks; falls kill. Stay 5 m back." };
  const steps = (k: number): Step[] =>
    [
      {
        text: `Sign ${k} one: read the gauge and call it`,
        cautions: [],
        blank: { of: "reading" as const, unit: "V" },
      },
      { text: `Sign ${k} two`, by: 2, cautions: [caution] },
      { when: "lamp red", text: "key back", cautions: [] },
      { text: `Sign ${k} three ${"over and over ".repeat((seed + k) % 9)}`.trim(), cautions: [] },
      { text: `Sign ${k} four`, by: 1, cautions: [], blank: { of: "photo" as const, unit: "" } },
    ].slice(0, 1 + ((seed + k) % 5));
  return {
    ...plan,
    tasks: plan.tasks.map((task, k) => ({
      ...task,
      steps: steps(k),
      cautions: k % 3 === 0 ? [{ text: "Grit cuts the seal: brush it off." }] : [],
    })),
  };
}

/** What no page may do, in words: text beyond the page's edges, or over other text. */
function faults({ boxes, widthMm, heightMm }: PdfPage): string[] {
  const inked = boxes.map((box) => ({ ...box, top: box.baseline - CAP * box.sizePt * MM_PER_PT }));
  return inked.flatMap((a, i) => [
    ...(a.left < 0 || a.top < 0 || a.right > widthMm || a.baseline > heightMm ? [`clipped: ${a.text}`] : []),
    ...inked
      .slice(i + 1)
      // A hair is rounding; runs of two files touch.
      .filter(
        (b) =>
          a.left < b.right - 0.05 &&
          b.left < a.right - 0.05 &&
          a.top < b.baseline - 0.05 &&
          b.top < a.baseline - 0.05,
      )
      .map((b) => `"${a.text}" over "${b.text}"`),
  ]);
}

/** How much has been looked at. */
export interface Seen {
  pages: number;
  tasks: number;
  steps: number;
  strips: number;
  answers: number;
  ways: number;
  rows: number;
  partners: number;
  waits: number;
}

export function nothingSeen(): Seen {
  return { pages: 0, tasks: 0, steps: 0, strips: 0, answers: 0, ways: 0, rows: 0, partners: 0, waits: 0 };
}

/** Everything that is said of one page, and of whom it is. */
interface Read {
  readonly plan: Plan;
  readonly verdict: Verdict;
  readonly played: Verdict;
  readonly homes: readonly HomeIf[];
  readonly goes: readonly GoIf[];
  readonly name: string;
  readonly crew: string;
  readonly eva: string;
  readonly words: string;
}

/** Holds the booklets of the plan of one seed to their geometry and to the judge. */
export async function lookAt(seed: number, seen: Seen): Promise<void> {
  const plan = withSteps(packedPlan(seed), seed);
  const verdict = check(plan);
  const day = printedDay(plan);
  const leaveS = new Map(
    [...day.leaves].map(([crew, own]) => [crew, new Map([...own].map(([task, { atS }]) => [task, atS]))]),
  );
  const printed = { egressS: day.egressS, ingressS: day.ingressS, leaveS };
  const played = check(plan, plan.schedule, printed);
  const paper = booklets(plan, verdict, { lateTable: lateTableOf(plan), day });
  expect(crossings(paper.pages), `seed ${seed}`).toEqual([]);
  const { pages } = await readPdf(await toPdf(paper, testFaces));
  const homes = homeIfs(plan);
  const goes = goIfs(plan, printed);
  const told: string[] = [];
  pages.forEach((page, i) => {
    const { name } = paper.pages[i]!;
    expect(faults(page), `seed ${seed}, ${name}`).toEqual([]);
    expect(small(page), `seed ${seed}, ${name}`).toEqual([]);
    seen.pages += 1;
    const [, crew = "", eva = "", what = ""] = /^(\w+), (\w+): (.*)$/.exec(name) ?? [];
    const words = page.boxes
      .map(({ text }) => text)
      .join(" ")
      .replace(/\s+/g, " ");
    const read: Read = {
      plan,
      verdict,
      played,
      homes,
      goes,
      name: `seed ${seed}, ${name}`,
      crew,
      eva,
      words,
    };
    const id = what.replace(/ \(continued\)$/, "");
    if (plan.tasks.some((task) => task.id === id)) {
      taskPage(read, id);
      if (id === what) told.push(`${crew} ${eva} ${what}`);
      if (id === what) seen.tasks += 1;
      if (id === what) seen.partners += partnerRows(read, id);
      if (id === what) seen.waits += waitRows(plan, read.name, words, id);
      if (/ LEAVE OUT |IF LATE /.test(words)) {
        seen.strips += 1;
        seen.answers += / LEAVE OUT /.test(words) ? 1 : 0;
        nextRow(read, id, seen);
      }
    }
    if (what === "egress") egressPage(read);
    if (what === "home, ingress") ingressPage(read);
    if (what === "emergency" || what === "ways home") wayHomeRows(read, seen);
    if (what.startsWith("at a glance")) glanceRows(read, seen);
    for (const box of page.boxes) {
      // Whosever they are, further lines too, and what is done only IF something is so.
      if (!/^Sign \d+ (one|two|three|four)|over and|^lamp red|^key back/.test(box.text)) continue;
      seen.steps += 1;
      expect(box.sizePt, name).toBeGreaterThanOrEqual(13.5);
    }
  });
  const due = plan.schedule.placements.flatMap(({ task, eva, crew }) =>
    crew.map((id) => `${id} ${eva} ${task}`),
  );
  expect(told.toSorted(), `seed ${seed}`).toEqual(due.toSorted());
}

function lateTableOf(plan: Plan): LateReport {
  const run = lateTableRun(plan, plan.schedule, { minutes: LATE, clock: () => 0 });
  while (run.step(1)) continue;
  return run.report();
}

/** Texts under 11 pt, in words: nothing but the foot, which is for the desk. */
function small({ boxes, heightMm }: PdfPage): string[] {
  return boxes
    .filter(({ baseline, sizePt }) => sizePt < 11 - 0.01 && baseline < heightMm - 4)
    .map(({ text, sizePt }) => `${sizePt} pt: ${text}`);
}

const pct = (one: number | null): string => (one === null ? "none" : `${one}`);

function gauges({ oxygen, co2, water, battery }: NonNullable<HomeIf["leastPct"]>): string {
  return `O2 ${pct(oxygen)} CO2 ${pct(co2)} WATER ${pct(water)} BATT ${pct(battery)}`;
}

function taskPage({ plan, homes, name, crew, words }: Read, what: string): void {
  const placement = plan.schedule.placements.find(({ task }) => task === what)!;
  const likelyS = plan.tasks.find(({ id }) => id === what)!.duration.likelyS;
  expect(words, name).toContain(`${taskNumber(plan, what)} ${what} `);
  expect(words, name).toContain(
    `START ${clock(placement.startS)} DONE BY ${clock(placement.startS + likelyS)} `,
  );
  const home = homes.find((one) => one.at === "task" && one.crew === crew && one.task === what)!;
  if (home.leastPct === null) expect(words, name).toContain("no HOME IF");
  else {
    expect(words, name).toContain(`HOME IF under % ${gauges(home.leastPct)}`);
    const said = home.walkbackS! > 0 ? minutes(home.walkbackS!, "up") : "here";
    expect(words, name).toMatch(new RegExp(`HOME (\\d+° )?${said} HOME IF`));
  }
}

/** What is walked after a task, as the judge has the day: how far and how long. */
function nextRow({ plan, verdict, name, crew, eva, words }: Read, what: string, seen: Seen): void {
  const outing = verdict.outings.find((one) => one.eva === eva && one.crew === crew)!;
  const at = outing.stretches.findIndex(({ task }) => task === what);
  const way = outing.stretches.slice(at + 1).find(({ kind }) => kind !== "wait");
  const follow = nextTask(outing, at);
  const number = follow === null ? "IN" : taskNumber(plan, follow);
  const next = words.slice(words.lastIndexOf(" NEXT "));
  expect(next, name).toContain(` NEXT ${number} `);
  if (way?.kind !== "traverse") expect(next, name).toContain(" here, ");
  else {
    const walkS = way.span.endS - way.span.startS;
    expect(next, name).toContain(`, ${metres(way.walkM, "up")}, ${minutes(walkS, "up")}, `);
    seen.ways += 1;
  }
}

function nextTask({ stretches }: Outing, at: number): string | null {
  return stretches.slice(at + 1).find(({ task }) => task !== null)?.task ?? null;
}

function egressPage({ goes, name, crew, eva, words }: Read): void {
  const go = goes.find((one) => one.crew === crew && one.eva === eva)!.leastPct;
  expect(words, name).toContain(gauges(go));
}

function ingressPage({ homes, name, crew, eva, words }: Read): void {
  const home = homes.find((one) => one.at === "lander" && one.crew === crew && one.eva === eva)!;
  if (home.leastPct !== null) expect(words, name).toContain(gauges(home.leastPct));
}

/** Minutes home from every place that the EVA leads to, on the back cover. */
function wayHomeRows({ plan, name, words }: Read, seen: Seen): void {
  const homeS = waysHome(plan);
  for (const { id, kind } of plan.site.places) {
    const said = new RegExp(` ${id} (no way home|\\d+ min)`).exec(words)?.[1];
    if (said === undefined || kind === "lander") continue;
    const { seconds } = homeS(id);
    expect(said, `${name}, ${id}`).toBe(seconds === null ? "no way home" : minutes(seconds, "up"));
    seen.rows += 1;
  }
}

/** Start and longest walk-back of every task of the list. */
function glanceRows({ plan, verdict, name, crew, eva, words }: Read, seen: Seen): void {
  for (const { task, startS, crew: doing, eva: on } of plan.schedule.placements) {
    if (!doing.includes(crew) || on !== eva) continue;
    const number = taskNumber(plan, task);
    const said = new RegExp(`${clock(startS)} ${number} ${task}(?:, ALONE)? (\\S+) (\\d+)`).exec(words);
    const walkbackS = verdict.walkbackS[task];
    if (!said || walkbackS === undefined || walkbackS === null) continue;
    expect(Number(said[2]), `${name}, ${task}`).toBe(Math.ceil(walkbackS / 60));
    seen.rows += 1;
  }
}

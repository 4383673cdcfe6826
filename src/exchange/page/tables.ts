import type { BenchReason, Finding, Level, Outing, Verdict } from "../../answers/index.ts";
import type { Eva, Placement, Plan, Task } from "../../plan/index.ts";
import { instant, type Instant, type Interval } from "../../kernel/index.ts";
import { FLIGHT_RULES } from "../../rules/index.ts";
import {
  aboutWords,
  clock,
  crewName,
  findingWords,
  lasting,
  listed,
  numberedSentence,
  placeName,
  remarkedAt,
  signoffWords,
  taskNumber,
  touchdownMs,
  utcClock,
} from "../../words/index.ts";
import { MARGIN_HEADS, marginCells } from "../paper/day/summary.ts";
import { walkBackOver, walkBackWords } from "../paper/walkback.ts";
import { type Markup, markup, type Part } from "./markup.ts";

/** The tables of the page. On a narrow screen a row becomes a paragraph, so a cell carries its head. */

interface Cell {
  readonly part: Part;
  /** main: what the row is about. */
  readonly kind?: "at" | "num" | "main";
}

interface Row {
  readonly cells: readonly Cell[];
  readonly quiet?: boolean;
}

function table(caption: Part, heads: readonly string[], rows: readonly Row[]): Markup {
  return markup`<table class="rows"><caption>${caption}</caption><thead><tr>${heads.map((head) => markup`<th scope="col">${head}</th>`)}</tr></thead><tbody>${rows.map(rowOf(heads))}</tbody></table>`;
}

function rowOf(heads: readonly string[]): (row: Row) => Markup {
  return ({ cells, quiet = false }) =>
    markup`<tr${quiet ? markup` class="quiet"` : ""}>${cells.map(({ part, kind }, k) => markup`<td${kind ? markup` class="${kind}"` : ""} data-head="${heads[k] ?? ""}">${part}</td>`)}</tr>\n`;
}

/** Everything that is done on an EVA, in time: egress, tasks, rests that the work limit needs, ingress. */
export function scheduleTable(plan: Plan, verdict: Verdict, eva: Eva, out: Outing): Markup {
  const rows = [
    ...airlockRows(plan, eva, out),
    ...restRows(plan, verdict, eva),
    ...taskRows(plan, verdict, eva),
  ];
  return table(
    `${eva.name} in time`,
    ["MET", "to", "UTC", "No.", "Task", "Who", "Where", "Walk home"],
    rows.toSorted((a, b) => a.startS - b.startS).map(({ row }) => row),
  );
}

/** A row and when it begins. */
interface TimedRow {
  readonly startS: number;
  readonly row: Row;
}

function airlockRows(plan: Plan, eva: Eva, out: Outing): TimedRow[] {
  const everybody = listed(eva.crew.map((id) => crewName(plan, id)));
  return out.stretches
    .filter(({ kind }) => kind === "egress" || kind === "ingress")
    .map(({ kind, span }) => quietRow(plan, span, kind === "egress" ? "Egress" : "Ingress", everybody));
}

function restRows(plan: Plan, verdict: Verdict, eva: Eva): TimedRow[] {
  return verdict.rests
    .filter((one) => one.eva === eva.id)
    .map(({ crew, span, needS }) => {
      const words = `Rest; the work limit needs ${lasting(needS, "up")} of it`;
      return quietRow(plan, span, words, crewName(plan, crew));
    });
}

function taskRows(plan: Plan, verdict: Verdict, eva: Eva): TimedRow[] {
  return placed(plan, eva.id).map(({ task, placement }) => {
    const { startS } = placement;
    const endS = instant(startS + task.duration.likelyS);
    return {
      startS,
      row: {
        cells: [
          ...timeCells(plan, startS, endS),
          { part: taskNumber(plan, task.id), kind: "num" },
          { part: taskPart(task), kind: "main" },
          { part: listed(placement.crew.map((id) => crewName(plan, id))) },
          { part: whereWords(plan, task) },
          { part: walkHome(verdict, placement, { startS, endS }), kind: "num" },
        ],
      },
    };
  });
}

/** What is no task: without number, place and walk home. */
function quietRow(plan: Plan, { startS, endS }: Interval, words: string, who: string): TimedRow {
  const cells: Cell[] = [
    ...timeCells(plan, startS, endS),
    { part: "" },
    { part: words, kind: "main" },
    { part: who },
    { part: "" },
    { part: "" },
  ];
  return { startS, row: { quiet: true, cells } };
}

/** From when to when, and when that is in universal time. */
function timeCells(plan: Plan, startS: number, endS: number): Cell[] {
  return [
    { part: clock(startS), kind: "at" },
    { part: clock(endS), kind: "num" },
    { part: utcClock(touchdownMs(plan), startS), kind: "num" },
  ];
}

/** What is done without crew; nothing where there is none. */
export function remoteTable(plan: Plan): Markup | null {
  const rows = placed(plan, null).map(({ task, placement: { startS } }): Row => ({
    cells: [
      ...timeCells(plan, startS, startS + task.duration.likelyS),
      { part: taskNumber(plan, task.id), kind: "num" },
      { part: taskPart(task), kind: "main" },
    ],
  }));
  return rows.length === 0 ? null : table("Remote work in time", ["MET", "to", "UTC", "No.", "Task"], rows);
}

/** The least of everything that people come home with, in the figures of paper. */
export function marginsTable(plan: Plan, verdict: Verdict): Markup {
  const heads = ["EVA, crew member", ...MARGIN_HEADS.slice(1)];
  const rows = verdict.outings.map((outing): Row => {
    const [name = "", ...cells] = marginCells(plan, verdict, outing);
    const of = verdict.margins.filter((one) => one.eva === outing.eva && one.crew === outing.crew);
    return {
      cells: [
        { part: markup`<b>${name}</b>`, kind: "main" },
        ...cells.map((cell, k): Cell => {
          const consumable = CONSUMABLES[k];
          const track = of.find((one) => one.consumable === consumable);
          return { part: track ? [cell, bar(track.margin)] : cell, kind: "num" };
        }),
      ],
    };
  });
  return rows.length === 0
    ? markup`<p>Nobody goes out.</p>`
    : table("Left above the reserve at the least, as a share of the stock", heads, rows);
}

/** In the order of MARGIN_HEADS. */
const CONSUMABLES = ["oxygen", "co2", "water", "battery"] as const;

/** A share as a bar, never longer than the share is. */
function bar(share: number): Markup {
  const long = Math.floor(Math.min(1, Math.max(0, share)) * 100);
  return markup`<svg class="bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true"><rect width="100" height="6"/><rect class="${share < 0 ? "low" : "has"}" width="${share < 0 ? 100 : long}" height="6"/></svg>`;
}

const LEVELS: readonly (readonly [Level, string])[] = [
  ["breach", "Breach"],
  ["open", "Open"],
  ["tight", "Tight"],
];

/** Every finding of the judge in its own words, with the numbers of the tasks that it is about: breaches, must-do work left out, what holds by little. */
export function findingsTable(plan: Plan, { findings }: Verdict): Markup {
  const rows = LEVELS.flatMap(([level, words]) =>
    findings
      .filter((one) => one.level === level)
      .toSorted(inTime)
      .map((finding): Row => ({
        cells: [
          { part: markup`<span class="tag ${level}">${words}</span>`, kind: "at" },
          { part: findingWords(plan, finding), kind: "main" },
          { part: FLIGHT_RULES[finding.rule].words },
          {
            part: finding.span ? `${clock(finding.span.startS)} to ${clock(finding.span.endS)}` : "",
            kind: "num",
          },
        ],
      })),
  );
  return rows.length === 0
    ? markup`<p>The judge finds nothing that breaks a rule or holds by little, at likely durations.</p>`
    : table(
        "What breaks a rule or holds by little, at likely durations",
        ["Level", "Finding", "Rule", "MET"],
        rows,
      );
}

function inTime(a: Finding, b: Finding): number {
  return (a.span?.startS ?? -Infinity) - (b.span?.startS ?? -Infinity) || (a.sentence < b.sentence ? -1 : 1);
}

/** What is not done, must-do work first, then by worth, each with why; what nobody has worked out is said to be so. */
export function benchTable(plan: Plan, reasons: ReadonlyMap<string, BenchReason>): Markup {
  const done = new Set(plan.schedule.placements.map(({ task }) => task));
  const rows = plan.tasks
    .filter(({ id }) => !done.has(id))
    .toSorted((a, b) => Number(b.must) - Number(a.must) || b.worth - a.worth)
    .map((task): Row => ({
      cells: [
        { part: taskNumber(plan, task.id), kind: "num" },
        { part: taskPart(task), kind: "main" },
        { part: task.worth, kind: "num" },
        { part: numberedSentence(plan, reasons.get(task.id)?.sentence ?? "Not worked out.") },
      ],
    }));
  return rows.length === 0
    ? markup`<p>Every task of the plan is on the day line.</p>`
    : table("Tasks that are not on the day line", ["No.", "Task", "Worth", "Why"], rows);
}

/** What people say of the plan: whose sign-off holds, whose was undone by a change, and comments about which something is left to do. */
export function remarkTables(plan: Plan): readonly Markup[] {
  const signed = plan.signoffs.map((one): Row => ({
    cells: [{ part: aboutWords(plan, one.about), kind: "main" }, { part: signoffWords(plan, one) }],
  }));
  const open = plan.comments
    .filter(({ settled }) => !settled)
    .map(({ about, by, atUtc, text }): Row => ({
      cells: [
        { part: aboutWords(plan, about), kind: "main" },
        { part: text },
        { part: `${by}, ${remarkedAt(atUtc)}`, kind: "num" },
      ],
    }));
  return [
    ...(signed.length > 0
      ? [table("Sign-offs, under names as they were typed", ["Of", "State"], signed)]
      : []),
    ...(open.length > 0 ? [table("Comments that are open", ["On", "Comment", "By"], open)] : []),
  ];
}

function placed(plan: Plan, eva: string | null): { readonly task: Task; readonly placement: Placement }[] {
  return plan.schedule.placements
    .filter((one) => one.eva === eva)
    .flatMap((placement) => {
      const task = plan.tasks.find(({ id }) => id === placement.task);
      return task ? [{ task, placement }] : [];
    })
    .toSorted((a, b) => a.placement.startS - b.placement.startS || (a.task.id < b.task.id ? -1 : 1));
}

function taskPart({ name, must }: Task): Part {
  return must ? [name, markup` <span class="tag mustdo">must-do</span>`] : name;
}

function whereWords(plan: Plan, { place, endPlace }: Task): string {
  if (place === undefined) return "";
  const from = placeName(plan, place);
  return endPlace === undefined || endPlace === place ? from : `${from} to ${placeName(plan, endPlace)}`;
}

/** The longest walk home while a task is under way; where it is not the same for all who do it, each one's. */
function walkHome(
  verdict: Verdict,
  { eva, crew, task }: Placement,
  span: { readonly startS: Instant; readonly endS: Instant },
): string {
  return [...new Set(crew.map((id) => walkBackWords(walkBackOver(verdict, eva, id, task, span))))].join(", ");
}

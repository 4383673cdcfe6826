import type { Limit, MarginTrack, Outing } from "../../../answers/index.ts";
import { type Consumable, type Eva, isStockGiven, type Plan } from "../../../plan/index.ts";
import {
  angle,
  clock,
  metres,
  minutes,
  percent,
  touchdownMs,
  utcClock,
  utcDate,
} from "../../../words/index.ts";
import { limiterWords } from "../../../check/index.ts";
import { nameOf, taskName } from "../crewday.ts";
import { limitGiven, NO_LIMIT } from "../givenstocks.ts";
import { type Body, type Cell, type Column, EMPTY, type Row, type Table } from "./body.ts";
import { afterWords, type Doing, doingsOf } from "./doing.ts";
import { evasOut, type SheetGiven, placedTasksOf, utcKey } from "./given.ts";
import { leastAt, mostOver, mostUntil } from "./track.ts";

/** The timeline that a console runs an EVA from: a row for each moment at which somebody begins something else. */

export interface ConsoleRow {
  readonly atS: number;
  /** What each crew member is at from this moment on, whether that begins here, and what took no time before it at this moment. */
  readonly crew: readonly {
    readonly doing: Doing | null;
    readonly begins: boolean;
    readonly passed: readonly Doing[];
  }[];
  /** Work without crew that begins here. */
  readonly ground: readonly string[];
  /** Longest walk-back until the next row by crew member, s; null where it is not known. */
  readonly homeS: readonly (number | null)[];
  readonly relay: {
    readonly up: boolean;
    readonly changes: readonly { readonly atS: number; readonly up: boolean }[];
  };
  readonly sunDeg: number | null;
  /** Greatest distance between any two until the next row, m; null for one alone. */
  readonly apartM: number | null;
  /** By crew member and consumable: what is planned to be left now, and the least to come home with from here, shares of the full stock. */
  readonly gauges: readonly (readonly Gauge[])[];
}

export interface Gauge {
  readonly consumable: Consumable;
  readonly left: number | null;
  readonly least: number | null;
}

export const GAUGES: readonly { readonly consumable: Consumable; readonly head: string }[] = [
  { consumable: "oxygen", head: "O2" },
  { consumable: "co2", head: "CO2" },
  { consumable: "water", head: "WATER" },
  { consumable: "battery", head: "BATT" },
];

/** The rows of an EVA, from egress to ingress complete. */
export function consoleRows(given: SheetGiven, eva: Eva, outings: readonly Outing[]): ConsoleRow[] {
  const { plan, played } = given;
  const doings = outings.map((outing) => doingsOf(given, outing));
  const [first] = outings;
  if (!first) return [];
  const ground = placedTasksOf(plan).filter(
    (placed) =>
      placed.crew.length === 0 && placed.startS < first.span.endS && placed.endS > first.span.startS,
  );
  const moments = new Set([
    ...doings.flat().map(({ startS }) => startS),
    ...ground.map(({ startS }) => Math.max(startS, first.span.startS)),
  ]);
  const at = [...moments].sort((a, b) => a - b);
  const apart = played.separation.filter((one) => one.eva === eva.id);
  return at.map((atS, i): ConsoleRow => {
    const nextS = at[i + 1] ?? atS;
    const over = (points: MarginTrack["points"] | undefined): number | null =>
      points ? mostOver(points, atS, nextS) : null;
    return {
      atS,
      crew: doings.map((own) => {
        const doing = own.findLast((one) => one.startS <= atS) ?? null;
        const passed = own.filter((one) => one.startS === atS && one !== doing);
        return { doing, begins: doing?.startS === atS, passed };
      }),
      ground: ground
        .filter((placed) => Math.max(placed.startS, first.span.startS) === atS)
        .map(
          (placed) =>
            `${placed.number} ${taskName(placed.task)}${afterWords(plan, placed.task.id)}${placed.startS < atS ? ` (since ${clock(placed.startS)})` : ""}`,
        ),
      homeS: outings.map(({ crew }) =>
        over(played.reach.find((one) => one.eva === eva.id && one.crew === crew)?.points),
      ),
      relay: relayOver(plan, atS, nextS),
      sunDeg: given.sunDeg(atS),
      apartM: apart.reduce<number | null>((most, { points }) => {
        const here = mostUntil(points, atS, nextS);
        return here === null ? most : Math.max(most ?? 0, here);
      }, null),
      gauges: outings.map(({ crew }, k) => {
        const doing = doings[k]?.findLast((one) => one.startS <= atS);
        return GAUGES.map(({ consumable }) =>
          gaugeAt(given, eva.id, crew, consumable, atS, doing?.homeIf ?? []),
        );
      }),
    };
  });
}

/** What is planned to be left of a consumable at a moment, and what must be left there: HOME IF, and the reserve once inside. */
export function gaugeAt(
  { plan, played, homeIf }: SheetGiven,
  eva: string,
  crew: string,
  consumable: Consumable,
  atS: number,
  where: Doing["homeIf"],
): Gauge {
  const mine = (one: { readonly eva: string; readonly crew: string }): boolean =>
    one.eva === eva && one.crew === crew;
  const track = played.margins.find((one) => mine(one) && one.consumable === consumable);
  if (!track || track.stock === 0 || !isStockGiven(plan, { eva, crew }, consumable))
    return { consumable, left: null, least: null };
  const left = leastAt(track.points, atS);
  const here = homeIf.filter(
    (one) => mine(one) && where.some(({ at, task }) => one.at === at && one.task === task),
  );
  const shares = here.map(({ leastPct }) => leastPct?.[consumable] ?? Infinity);
  const most = Math.max(...shares) / 100;
  return {
    consumable,
    left: left === null ? null : left / track.stock,
    least: where.length === 0 ? track.reserve / track.stock : Number.isFinite(most) ? most : null,
  };
}

function relayOver({ stay }: Plan, fromS: number, toS: number): ConsoleRow["relay"] {
  const up = (atS: number): boolean => stay.relayPasses.some((pass) => pass.startS <= atS && atS < pass.endS);
  const changes = stay.relayPasses
    .flatMap((pass) => [
      { atS: pass.startS, up: true },
      { atS: pass.endS, up: false },
    ])
    .filter(({ atS }) => fromS <= atS && atS < toS)
    .sort((a, b) => a.atS - b.atS);
  return { up: up(fromS), changes };
}

/** Signs and roundings. */
const keyOf = (plan: Plan): string[] => [
  "Planned at likely durations, everybody leaving as printed. Gauges: planned at that minute, % of the full stock, rounded down; under it HOME IF, the least to come home with the reserve from where the row is, turning at once, rounded up; in the last row the reserve.",
  "HOME: longest walk-back until the next row, rounded up. RELAY: thick bar while it can be reached. APART: greatest until the next row, straight line, rounded up. SUN: elevation. ?: not known. PET counts from egress." +
    utcKey(plan),
];

/** A console timeline for each EVA that takes place. */
export function consoleBodies(given: SheetGiven): Body[] {
  return evasOut(given).map(({ eva, outings }) => consoleBody(given, eva, outings));
}

function consoleBody(given: SheetGiven, eva: Eva, outings: readonly Outing[]): Body {
  const { plan } = given;
  const epochMs = touchdownMs(plan);
  const rows = consoleRows(given, eva, outings);
  const { startS = 0 } = outings[0]?.span ?? {};
  const ground = rows.some((row) => row.ground.length > 0);
  const names = outings.map(({ crew }) => nameOf(plan.crew, crew));
  // Gauges of more than two do not fit beside what they do.
  const beside = outings.length <= 2;
  const gauges = names.flatMap((name) => gaugeColumns(name));
  const blanks = names.flatMap((name) => readColumns(name));
  const actual: Column = { head: "ACTUAL TIME", blankMm: 13 };
  const timeline: Table = {
    kind: "table",
    mostPt: 8,
    none: "Nobody goes out.",
    columns: [
      ...timeColumns(),
      ...names.map((head): Column => ({ head, grow: names.length > 2 ? 0.9 : 1.2 })),
      ...(ground ? [{ head: "GROUND", grow: 1.1 }] : []),
      ...names.map((head): Column => ({ head, group: "HOME min", align: "right" })),
      { head: "RELAY", bars: true },
      { head: "SUN", align: "right" },
      ...(outings.length > 1 ? [{ head: "APART m", align: "right" } as const] : []),
      ...(beside ? gauges : []),
      actual,
      ...(beside ? blanks : []),
    ],
    rows: rows.map((row): Row => ({
      cells: [
        ...timeCells(row.atS, startS, epochMs),
        ...doingCells(row),
        ...(ground ? [{ text: row.ground.join("; ") }] : []),
        ...row.homeS.map((seconds): Cell => ({ text: seconds === null ? "?" : bareMinutes(seconds) })),
        relayCell(row.relay),
        { text: row.sunDeg === null ? "?" : angle(row.sunDeg, "down") },
        ...(outings.length > 1 ? [{ text: row.apartM === null ? "?" : metresOnly(row.apartM) }] : []),
        ...(beside ? row.gauges.flat().map(gaugeCell) : []),
      ],
    })),
  };
  const byItself: Table = {
    kind: "table",
    title: "Gauges",
    mostPt: 8,
    none: "",
    columns: [...timeColumns(), ...gauges, actual, ...blanks],
    rows: rows.map((row): Row => ({
      cells: [...timeCells(row.atS, startS, epochMs), ...row.gauges.flat().map(gaugeCell)],
    })),
  };
  return {
    title: `Console timeline, ${nameOf(plan.evas, eva.id)}`,
    wide: true,
    under: underWords(given, eva, outings),
    key: keyOf(plan),
    sections: beside ? [timeline] : [timeline, byItself],
  };
}

/** What holds for the whole EVA: from when to when, what bounds it, and with what it begins. */
function underWords(given: SheetGiven, eva: Eva, outings: readonly Outing[]): string[] {
  const { plan, day } = given;
  const { startS = 0, endS = 0 } = outings[0]?.span ?? {};
  const limit = day.limit.get(eva.id);
  return [
    [
      `MET ${clock(startS)} to ${clock(endS)}`,
      `egress ${utcDate(touchdownMs(plan), startS)} UTC`,
      ...(limit ? [latestWords(plan, limitGiven(plan, eva, limit))] : []),
      `crew apart at most ${metres(plan.rules.separation.greatestM, "given")}`,
      "this run: ________________",
    ].join(" · "),
    `GO IF at egress at least ${outings.map(({ crew }) => goWords(given, eva, crew)).join("; ")} (%)`,
  ];
}

function latestWords(plan: Plan, limit: Limit | null): string {
  return limit
    ? `ingress complete no later than ${clock(limit.ingressS, "down")}, set by ${limiterWords(plan, limit.by)}`
    : `latest ingress ${NO_LIMIT}`;
}

/** What a suit must hold at egress for the day as planned. */
function goWords({ plan, goIf }: SheetGiven, eva: Eva, crew: string): string {
  const least = goIf.find((one) => one.eva === eva.id && one.crew === crew)?.leastPct;
  const gauges = GAUGES.map(({ consumable, head }) => `${head} ${least?.[consumable] ?? "?"}`);
  return `${nameOf(plan.crew, crew)} ${gauges.join(" ")}`;
}

function timeColumns(): Column[] {
  return [
    { head: "MET", bold: true, align: "right", known: true },
    { head: "UTC", align: "right" },
    { head: "PET", align: "right" },
  ];
}

function timeCells(atS: number, egressS: number, epochMs: number | null): Cell[] {
  return [{ text: clock(atS) }, { text: utcClock(epochMs, atS) }, { text: clock(atS - egressS) }];
}

/** Columns of what is planned of one suit. */
export function gaugeColumns(name: string): Column[] {
  return GAUGES.map(({ head }): Column => ({ head, group: `${name} plan %, least`, align: "right" }));
}

/** Columns for what is read out of one suit. */
function readColumns(name: string): Column[] {
  return ["O2", "BATT"].map((head): Column => ({ head, group: `${name} read`, blankMm: 9 }));
}

/** Planned over least; a gauge under its least is in words. */
export function gaugeCell({ left, least }: Gauge): Cell {
  const floor = least === null ? "?" : bareShare(least, "up");
  if (left === null) return { text: "?", under: floor, bold: true };
  return { text: bareShare(left, "down"), under: floor, bold: true };
}

/** The same cell over all of the crew where all begin the same; a line where something goes on. */
function doingCells({ crew }: ConsoleRow): Cell[] {
  const [first] = crew;
  const same = (one: ConsoleRow["crew"][number]): boolean =>
    one.begins &&
    first?.begins === true &&
    one.passed.length === 0 &&
    first.passed.length === 0 &&
    one.doing?.words === first.doing?.words &&
    one.doing?.task === first.doing?.task;
  if (first && crew.length > 1 && crew.every(same)) return [{ ...doingCell(first), span: crew.length }];
  return crew.map(doingCell);
}

function doingCell({ doing, begins, passed }: ConsoleRow["crew"][number]): Cell {
  if (!doing) return EMPTY;
  if (!begins) return { text: "", goesOn: true };
  const [first = doing, ...then] = [...passed, doing];
  const words = [
    first.words,
    ...then.map((one) => (one.number === null ? one.words : `${one.number} ${one.words}`)),
  ];
  const bold = ["egress", "ingress", "rest", "in"].includes(first.kind);
  return { text: words.join("; "), ...(first.number === null ? {} : { number: first.number }), bold };
}

function relayCell({ up, changes }: ConsoleRow["relay"]): Cell {
  // It can be counted on from the next whole minute, and until the last one.
  const words = changes.map((one) => `${clock(one.atS, one.up ? "up" : "down")} ${one.up ? "up" : "down"}`);
  return { text: words.join(", "), bar: up };
}

/** Minutes without their unit, which stands over the column. */
function bareMinutes(seconds: number): string {
  return minutes(seconds, "up").replace(/ min$/, "");
}

/** A share as whole percent without its sign, which stands over the column. */
function bareShare(share: number, side: "up" | "down"): string {
  return percent(share, side).replace(/ %$/, "");
}

/** Metres without their unit, which stands over the column; km with it. */
function metresOnly(value: number): string {
  return metres(value, "up").replace(/ m$/, "");
}

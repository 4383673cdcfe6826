import { suitOn, tasksById } from "../../plan/index.ts";
import { arePlaced, clock, minutes, unlessToGive } from "../../words/index.ts";
import { bearingAlong } from "./bearings.ts";
import { type CrewEva, nameOf, placeName } from "./crewday.ts";
import {
  baselineOf,
  gap,
  type Heading,
  LABEL_PT,
  type Leaf,
  leaves,
  LEFT,
  paragraph,
  RIGHT,
  setLines,
  WIDE,
} from "./cuff.ts";
import { clockHour, fromShadowDeg } from "./dial.ts";
import type { Block } from "./flow.ts";
import { type Fact, factForm, factForms, type Setting } from "./forms.ts";
import type { Known } from "./known.ts";
import { line, rect, type Tag, tagged, text } from "./page.ts";
import { rowOf } from "./pieces.ts";
import { linesHeight, wrap } from "./type.ts";
import { farthest, walkBackWords } from "./walkback.ts";

/**
 * The back cover of an EVA's booklet: what is done whatever happened, how long emergency oxygen lasts, minutes and bearing home from every place, and
 * what is done by cause. Where one page does not hold it, the ways home stand on the page before. It has the plan's own text and says whose that is;
 * where there is none it says so.
 */
export function emergencyLeaves(known: Known, part: CrewEva, head: Heading): Leaf[] {
  const { emergency, authority } = known.plan.procedures;
  const acts = emergency.filter(({ when }) => when === undefined);
  const causes = emergency.flatMap(({ when, text: what }) => (when === undefined ? [] : [{ when, what }]));
  const act = (words: string): Block => paragraph(words, { sizesPt: [14], after: 0.4 });
  const first: Block[] = [
    ...(emergency.length === 0
      ? [act("No emergency text in this plan. Do what the flight rules in charge say.")]
      : acts.map(({ text: words }, k) => act(`${k + 1} ${words}`))),
    ...oxygen(known, part),
    ...(part.suit === null ? [] : factForm("SUIT", part.suit)),
  ];
  const foot = emergency.length === 0 ? null : authorityBlock(authority);
  const places = placesOf(known, part);
  const last = (blocks: readonly Block[]): Leaf[] =>
    leaves(head, "emergency", "EMERGENCY", blocks, { edge: true, loud: true, ...(foot ? { foot } : {}) });
  for (const airMm of ROW_AIR_MM) {
    const whole = last([...first, ...homeTable(places, airMm), ...causeTable(causes)]);
    if (whole.length === 1) return whole;
  }
  const ways = leaves(head, "ways home", "ways home", homeTable(places, ROW_AIR_MM[0]), { edge: true });
  const pointer = factForm("WAYS HOME", ways.length === 1 ? "on the page before" : "on the pages before", 12);
  return [...ways, ...last([...first, ...pointer, ...causeTable(causes)])];
}

/** Between the rows of the ways home, mm: closer where that spares a page, so that all is on the back cover. */
const ROW_AIR_MM = [0.7, 0.25] as const;

/** Emergency oxygen of everybody, and the farthest that the plan leads from home. */
function oxygen({ plan, verdict }: Known, part: CrewEva): Block[] {
  const { eva, member, others } = part;
  const track = verdict.reach.find((one) => one.eva === eva.id && one.crew === member.id) ?? null;
  const worst = farthest(track);
  const lasts = (id: string): string => {
    const suit = suitOn(plan, eva, id);
    return suit
      ? unlessToGive(suit, "emergencyOxygenS", minutes(suit.emergencyOxygenS, "down"), "unknown")
      : "unknown";
  };
  const kept = minutes(plan.rules.walkback.emergencyReserveS, "up");
  return factForms(
    [
      ["OXYGEN", `emergency ${lasts(member.id)}, ${kept} of it kept back`],
      ...others.map((other): Fact => [nameOf(plan.crew, other.id), `emergency ${lasts(other.id)}`]),
      ...(worst
        ? ([
            [
              "FARTHEST",
              arePlaced(
                plan,
                part.stops.flatMap(({ task }) => [task.place, task.endPlace]),
              )
                ? `you: ${minutes(worst.seconds, "up")} walk home, at ${clock(worst.atS, "down")}`
                : "you: unknown",
            ],
          ] satisfies Fact[])
        : []),
    ],
    CLOSE,
    12,
  );
}

/** Facts that run on one behind the other. */
const CLOSE: Setting = { sizePt: 12, gapMm: 0.5 };

interface PlaceHome {
  readonly name: string;
  readonly seconds: number;
  readonly words: string;
  readonly bearing: string;
  /** Where home is on a clock's face with one's shadow at 12. */
  readonly hour: number | null;
}

/** Every place where somebody works on that EVA, farthest first; no way stands on top. */
function placesOf(known: Known, part: CrewEva): PlaceHome[] {
  const { plan } = known;
  const tasks = tasksById(plan);
  const ids = new Set(
    plan.schedule.placements
      .filter(({ eva }) => eva === part.eva.id)
      .flatMap(({ task }) => [tasks.get(task)?.place, tasks.get(task)?.endPlace])
      .flatMap((id) => (id === undefined ? [] : [id])),
  );
  for (const { id, kind } of plan.site.places) if (kind === "lander") ids.delete(id);
  const middleS = part.egressS === null || part.ingressS === null ? null : (part.egressS + part.ingressS) / 2;
  const sun = middleS === null ? null : known.sunAt(middleS);
  return [...ids]
    .map((id): PlaceHome => {
      const way = known.wayHome(id);
      const isKnown = arePlaced(plan, [id, ...way.through]);
      const bearing = bearingAlong(plan, way.through);
      const shadow = bearing === "" ? null : fromShadowDeg(Number.parseInt(bearing, 10), sun);
      return {
        name: placeName(plan, id),
        seconds: isKnown ? (way.seconds ?? Infinity) : Infinity,
        words: walkBackWords(
          !isKnown
            ? { kind: "unknown" }
            : way.seconds === null
              ? { kind: "no way" }
              : { kind: "known", seconds: way.seconds },
        ),
        bearing,
        hour: shadow === null ? null : clockHour(shadow),
      };
    })
    .sort((a, b) => (a.seconds === b.seconds ? (a.name < b.name ? -1 : 1) : b.seconds - a.seconds));
}

/** Minutes, bearing and shadow from every place under one head. */
function homeTable(places: readonly PlaceHome[], airMm: number): Block[] {
  const withShadow = places.some(({ hour }) => hour !== null);
  const table: Tag = { role: "Table" };
  return [
    { ...gap(0.6), keep: true },
    columns(withShadow, table),
    ...places.map((one) => row(one, withShadow, airMm, table)),
    ...(withShadow ? factForm("CLOCK", "face your shadow: that is 12 o'clock", 12) : []),
  ];
}

/** Right edges of the columns; the hatched edge is beside them. */
const AT = { minutes: RIGHT - 39.5, bearing: RIGHT - 23.5, hour: RIGHT - 1.5 } as const;

function columns(withShadow: boolean, table: Tag): Block {
  const face = { sizePt: LABEL_PT, bold: true, tight: true };
  const right = { ...face, align: "right" } as const;
  return {
    height: 5,
    keep: true,
    draw: (y) => [
      ...rowOf(table, "TH", [
        text(LEFT, y + 3.8, "HOME FROM", face),
        text(AT.minutes, y + 3.8, "TAKES", right),
        text(AT.bearing, y + 3.8, "BEARING", right),
        ...(withShadow ? [text(AT.hour, y + 3.8, "CLOCK", right)] : []),
      ]),
      line(LEFT, y + 4.8, RIGHT - 1, y + 4.8, 0.5),
    ],
  };
}

function row(
  { name, words, bearing, hour }: PlaceHome,
  withShadow: boolean,
  airMm: number,
  table: Tag,
): Block {
  const figure = { sizePt: 13, bold: true, align: "right" } as const;
  const face = { sizePt: 12.5, bold: false, tight: true };
  const clockFace = { ...figure, sizePt: 12.5, tight: true };
  const lines = wrap(name, AT.minutes - 15.5 - LEFT, face);
  const height = linesHeight(lines.length, 12.5) + airMm;
  return {
    height,
    draw: (y) => [
      ...rowOf(table, "TD", [
        lines.flatMap((one, i) => text(LEFT, baselineOf(y, 12.5) + linesHeight(i, 12.5), one, face)),
        text(AT.minutes, baselineOf(y, 13), words, figure),
        text(AT.bearing, baselineOf(y, 13), bearing, figure),
        ...(withShadow
          ? [hour === null ? [] : text(AT.hour, baselineOf(y, 13), `${hour} o'clock`, clockFace)]
          : []),
      ]),
      line(LEFT, y + height - 0.2, RIGHT - 1, y + height - 0.2, 0.3),
    ],
  };
}

interface Cause {
  readonly when: string;
  readonly what: string;
}

const CAUSE = { sizePt: 12.5, bold: false, tight: true } as const;

/** What is done by cause, under one head; as wide on either side as takes the fewest lines. */
function causeTable(causes: readonly Cause[]): Block[] {
  if (causes.length === 0) return [];
  const table: Tag = { role: "Table" };
  const rowsAt = (then: number): Block[] => causes.map((one) => cause(one, then, table));
  const high = (then: number): number => rowsAt(then).reduce((sum, { height }) => sum + height, 0);
  const then = THEN_LEFT.reduce((best, one) => (high(one) < high(best) ? one : best));
  return [{ ...gap(1), keep: true }, causeHeads(then, table), ...rowsAt(then)];
}

/** Where what is done may begin, behind what is seen or read. */
const THEN_LEFT = [34, 26, 28, 30, 32, 36, 38, 40].map((mm) => LEFT + mm);

function causeHeads(then: number, table: Tag): Block {
  const face = { sizePt: 12.5, bold: true };
  return {
    height: 5.4,
    keep: true,
    draw: (y) => [
      ...rowOf(table, "TH", [text(LEFT, y + 4.2, "IF", face), text(then, y + 4.2, "THEN", face)]),
      line(LEFT, y + 5.2, RIGHT - 1, y + 5.2, 0.5),
    ],
  };
}

/** By cause: what is seen or read, and beside it what is done. */
function cause({ when, what }: Cause, then: number, table: Tag): Block {
  const ifs = wrap(when, then - 2 - LEFT, CAUSE);
  const thens = wrap(what, RIGHT - 1.5 - then, CAUSE);
  const height = linesHeight(Math.max(ifs.length, thens.length), 12.5) + 0.9;
  return {
    height,
    draw: (y) => [
      ...rowOf(table, "TD", [setLines(ifs, LEFT, y, CAUSE), setLines(thens, then, y, CAUSE)]),
      line(LEFT, y + height - 0.3, RIGHT - 1, y + height - 0.3, 0.5),
    ],
  };
}

/** Whose text it is: who answers for it, or that it waits for somebody who does. */
function authorityBlock(authority: string | undefined): Block {
  const words =
    authority === undefined
      ? "Planner's text. THE AUTHORITY IN CHARGE REPLACES IT."
      : `Text: ${authority}. The authority in charge may replace it.`;
  const face = { sizePt: 12, bold: true, tight: true };
  const lines = wrap(words, WIDE - 4, face);
  const high = linesHeight(lines.length, 12) + 1.6;
  return {
    height: high + 0.6,
    draw: (y) => [
      rect(LEFT + 0.25, y + 0.25, WIDE - 1.5, high - 0.5, 0.5),
      ...tagged(
        lines.flatMap((one, i) => text(LEFT + 1.2, baselineOf(y + 0.7, 12) + linesHeight(i, 12), one, face)),
      ),
    ],
  };
}

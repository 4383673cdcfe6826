import type { Gauges } from "../../answers/index.ts";
import { type Instant, instant } from "../../kernel/index.ts";
import type { Plan, Step } from "../../plan/index.ts";
import {
  clock,
  minutes,
  noLaterThan,
  taskNumber,
  touchdownMs,
  utcClock,
  utcDate,
} from "../../words/index.ts";
import { alongWords } from "./bearings.ts";
import { companyOf, type CrewEva, restPlace, taskName } from "./crewday.ts";
import { type Heading, LABEL_PT, type Leaf, LEFT, setLines, WIDE } from "./cuff.ts";
import type { Block } from "./flow.ts";
import { cautionForm, factForm, restForm, type Setting } from "./forms.ts";
import type { Known } from "./known.ts";
import { line, type Mark, rect, tagged, text } from "./page.ts";
import { GAUGES, headRow, type Moment, nextRow, ROWS, timesRow, turnRow } from "./rows.ts";
import { NO_STEPS, stepBlocks } from "./steps.ts";
import { drawn, pagesOf, turnWords } from "./taskpage.ts";

/** The pages for both ends of an EVA: what the gauges must show, and the plan's own steps. */

/** Both ends of the EVA on the clock of those who are not on this mission's. */
function utcWords(plan: Plan, outS: Instant, shutS: Instant): string {
  const zeroMs = touchdownMs(plan);
  if (zeroMs === null) return "unknown until touchdown is given";
  return `${utcDate(zeroMs, outS)}, hatch shut ${utcClock(zeroMs, shutS)}`;
}

interface Gate {
  readonly number: string;
  readonly name: string;
  readonly times: readonly [Moment, Moment, Moment];
  readonly gauges: Gauges | null;
  readonly gaugeWords: string;
  readonly before: (setting: Setting) => readonly Block[];
  readonly steps: readonly Step[];
  readonly next: { readonly number: string; readonly name: string; readonly how: readonly string[] };
}

/** Going out: GO IF, the steps of the egress, and the way to the first task. */
export function egressLeaves(known: Known, part: CrewEva, heading: Heading): Leaf[] {
  const { plan } = known;
  const { eva, egressS, member } = part;
  const first = part.stops[0];
  const leave = first && known.day.leaves.get(member.id)?.get(first.task.id);
  const outing = known.verdict.outings.find((one) => one.eva === eva.id && one.crew === member.id);
  const way = outing?.stretches.find(({ kind }) => kind === "traverse");
  const walks = first !== undefined && first.wayS !== 0;
  return gateLeaves(known, part, heading, {
    number: "OUT",
    name: "Egress",
    times: [
      { label: "START", value: egressS === null ? "unknown" : clock(egressS) },
      { label: "OUTSIDE BY", value: egressS === null ? "unknown" : clock(egressS + eva.egressWorkS) },
      !walks
        ? { label: "FIRST TASK AT", value: first ? clock(first.startS) : "none", heavy: true }
        : {
            label: leave?.kind === "at once" ? "LEAVE AT ONCE" : "LEAVE HERE BY",
            value: leave ? clock(leave.atS) : "unknown",
            heavy: true,
          },
    ],
    gauges: known.goIf(eva.id, member.id)?.leastPct ?? null,
    gaugeWords: "GO IF at least (%); box: what you read",
    before: () =>
      egressS === null ? [] : factForm("UTC", utcWords(plan, egressS, part.ingressS ?? egressS)),
    steps: plan.procedures.egress,
    next: first
      ? {
          number: taskNumber(plan, first.task.id),
          name: taskName(first.task),
          how: [
            ...(!walks || !way || first.wayS === null ? ["here"] : alongWords(plan, way, first.wayS)),
            companyOf(plan, part, first),
            `start ${clock(first.startS)}`,
          ].filter((one) => one !== ""),
        }
      : { number: "IN", name: "Home to the lander", how: ["no task on this EVA"] },
  });
}

/** Coming in: when the hatch is shut, at which gauges to go in at once, and the steps of the ingress. */
export function ingressLeaves(known: Known, part: CrewEva, heading: Heading): Leaf[] {
  const { plan, verdict } = known;
  const { eva, ingressS, member } = part;
  const limitS = part.limit && noLaterThan(part.limit.ingressS, ingressS);
  const shutS = ingressS ?? limitS;
  const startS = ingressS === null ? null : instant(ingressS - eva.ingressWorkS);
  const others = part.others.flatMap((other) => {
    const outing = verdict.outings.find((one) => one.eva === eva.id && one.crew === other.id);
    const home = outing?.stretches.findLast(({ kind }) => kind === "traverse");
    const last = outing?.stretches.findLast(({ kind }) => kind === "traverse" || kind === "task");
    // Who does the last task here with them is not told when they came.
    if (last?.kind === "task" && part.stops.at(-1)?.crew.includes(other.id)) return [];
    return outing
      ? [
          [
            other.name,
            home ? `home ${homeBy(home.span.endS, startS)}. Who is first waits here` : "at the lander",
          ] as const,
        ]
      : [];
  });
  const { homeRest } = part;
  return gateLeaves(known, part, heading, {
    number: "IN",
    name: "Home, ingress",
    times: [
      { label: "START", value: startS === null ? "unknown" : clock(startS) },
      { label: "HATCH SHUT", value: shutS === null ? "unknown" : clock(shutS) },
      { label: "NEVER AFTER", value: limitS === null ? "unknown" : clock(limitS), heavy: true },
    ],
    gauges: known.homeIf("lander", eva.id, member.id, null)?.leastPct ?? null,
    gaugeWords: "GO IN AT ONCE IF under (%); box: what you read",
    before: (setting) => [
      ...(homeRest === null
        ? []
        : [
            restForm(
              `${minutes(homeRest.needS, "given")}, ${restPlace(plan, homeRest)}`,
              clock(homeRest.span.endS),
              setting,
            ),
          ]),
      ...others.flatMap(([who, words]) => factForm(who, words)),
    ],
    steps: plan.procedures.ingress,
    next: { number: "", name: "Back cover: EMERGENCY", how: ["last page"] },
  });
}

/** By when somebody is home: the whole minute after it, or the begin of the ingress where that comes before and finds them home. */
function homeBy(homeS: Instant, startS: Instant | null): string {
  const wholeS = Math.ceil(homeS / 60) * 60;
  return startS !== null && homeS <= startS && startS < wholeS ? clock(startS) : clock(homeS, "up");
}

function gateLeaves(known: Known, part: CrewEva, heading: Heading, gate: Gate): Leaf[] {
  const { plan } = known;
  const crew = part.eva.crew;
  const working = (setting: Setting): Block[] => [
    ...gate.before(setting),
    ...(gate.steps.length === 0
      ? cautionForm("note", [NO_STEPS], setting)
      : stepBlocks(plan, gate.steps, crew, part.member.id, setting)),
  ];
  const top = ROWS.home + GAUGES_MM + 1;
  const room = ROWS.next - 0.4 - top;
  const pages = pagesOf(working, room, room);
  return pages.map((blocks, k) => {
    const last = k === pages.length - 1;
    return {
      heading,
      name: k === 0 ? gate.name.toLowerCase() : `${gate.name.toLowerCase()} (continued)`,
      edge: false,
      marks: [
        ...headRow({
          number: gate.number,
          name: gate.name,
          who: `${heading.crew} ${heading.eva}`,
          part: pages.length === 1 ? "" : `part ${k + 1} of ${pages.length}`,
        }),
        ...timesRow(gate.times),
        ...gaugeRow(gate.gauges, gate.gaugeWords),
        ...drawn(blocks, top),
        ...(last ? nextRow(gate.next) : turnRow(turnWords(pages.slice(k + 1), ", next"))),
      ],
    };
  });
}

const GAUGES_MM = 26.4;

/** The four gauges, each with what it must show and a box for what it does. */
function gaugeRow(gauges: Gauges | null, words: string): Mark[] {
  const top = ROWS.home;
  const label = { sizePt: 11.5, bold: true, tight: true };
  const wide = WIDE / GAUGES.length;
  const frame = top + 5;
  const high = GAUGES_MM - 5;
  return [
    ...setLines([words], LEFT, top, label),
    rect(LEFT + 0.25, frame + 0.25, WIDE - 0.5, high - 0.5, 0.5),
    ...GAUGES.flatMap(([key, name], k) => {
      const left = LEFT + k * wide;
      const value = gauges === null ? "?" : gauges[key] === null ? "none" : `${gauges[key]}`;
      return [
        ...(k === 0 ? [] : [line(left, frame, left, frame + high, 0.5)]),
        ...tagged([
          ...text(left + wide / 2, frame + 4.7, name, {
            sizePt: LABEL_PT,
            bold: true,
            tight: true,
            align: "centre",
          }),
          ...text(left + wide / 2, frame + 11.3, value, { sizePt: 19, bold: true, align: "centre" }),
        ]),
        ...tagged([rect(left + 1.4, frame + 12.6, wide - 2.8, 7.5, 0.5)], {
          role: "Figure",
          says: `Box for the ${name} that you read`,
        }),
      ];
    }),
  ];
}

import { newBreaches } from "../../../check/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { type Call, callWords, type DebriefRow, isLost, isMark } from "../../../rehearsal/index.ts";
import {
  clock,
  counted,
  evaName,
  findingWords,
  rehearsalLosesWords,
  shift,
  touchdownMs,
  utcDate,
} from "../../../words/index.ts";
import { nameOf } from "../crewday.ts";
import type { Body, Column, Row } from "./body.ts";
import type { Rehearsed, SheetGiven } from "./given.ts";

/** Calls that somebody throws in or decides, and not the crew's own going on. */
const THROWN: readonly Call["kind"][] = [
  "left-out",
  "spoilt",
  "longer",
  "hold",
  "slower",
  "reading",
  "back-by",
  "broken",
  "no-relay",
  "closed",
  "replanned",
  "note",
];

/** What was thrown into a rehearsal and decided in it, in its order. */
export function scenarioRows({ run }: Rehearsed): readonly Call[] {
  return run.calls.filter(({ kind }) => THROWN.includes(kind));
}

const NONE: Body["sections"] = [{ kind: "words", bold: true, text: "No day is under rehearsal." }];

/** For whoever leads the rehearsal: what is thrown in when, with room for what the crew made of it. */
export function scenarioBody({ rehearsal }: SheetGiven): Body {
  const title = "Scenario of a rehearsal";
  if (!rehearsal) return { title, under: [], key: [], wide: false, sections: NONE };
  const { plan, run } = rehearsal;
  const [first] = run.calls;
  return {
    title,
    wide: false,
    under: [
      `Plan ${plan.title}. Touchdown ${utcDate(touchdownMs(plan), 0)} UTC. ${first ? `First call at MET ${clock(first.atS)}` : "No call yet"}, seed ${run.seed}, clock at MET ${clock(run.nowS)}.`,
    ],
    key: ["What the crew does by itself is not listed. Durations that are drawn follow from the seed."],
    sections: [
      {
        kind: "table",
        title: "Thrown in and decided",
        none: "Nothing was thrown in.",
        columns: [
          { head: "MET", align: "right", bold: true },
          { head: "WHAT", grow: 2 },
          { head: "WHAT THE CREW MADE OF IT", grow: 2, blankMm: 50 },
        ],
        rows: scenarioRows(rehearsal).map((call): Row => ({
          cells: [{ text: clock(call.atS) }, { text: callWords(plan, call) }],
        })),
      },
      {
        kind: "table",
        title: "Planned outings",
        none: "Nobody goes out.",
        columns: [{ head: "EVA", grow: 1 }, ...moments(["EGRESS PLANNED", "INGRESS PLANNED"])],
        rows: rehearsal.debrief.evas.map((eva): Row => ({
          cells: [eva.name, at(eva.plannedOutS), at(eva.plannedInS)].map((text) => ({ text })),
        })),
      },
    ],
  };
}

/** Planned against actual, task by task, after the rehearsal. */
export function debriefBody({ rehearsal }: SheetGiven): Body {
  const title = "Debrief of a rehearsal";
  if (!rehearsal) return { title, under: [], key: [], wide: false, sections: NONE };
  const { plan, debrief, run } = rehearsal;
  const loses = rehearsalLosesWords(plan);
  return {
    title,
    wide: false,
    under: [
      `Done ${debrief.done} of ${debrief.planned}, must-do ${debrief.mustDone} of ${debrief.mustPlanned}, worth ${debrief.worthDone} of ${debrief.worthPlanned}; ${counted(run.calls.length, "call")}, seed ${run.seed}, clock at MET ${clock(run.nowS)}.`,
      ...(loses === null ? [] : [loses]),
    ],
    key: [
      "LATER: began so much later than planned. LONGER: took so much longer than its likely duration; begun minutes of both counted up.",
    ],
    sections: [
      ...harmOf(rehearsal),
      {
        kind: "table",
        title: "Outings",
        none: "Nobody goes out.",
        columns: [
          { head: "EVA", grow: 1 },
          ...moments(["EGRESS PLANNED", "EGRESS", "INGRESS PLANNED", "INGRESS"]),
        ],
        rows: debrief.evas.map((eva): Row => ({
          cells: [
            evaName(plan, eva.eva),
            at(eva.plannedOutS),
            at(eva.outS),
            at(eva.plannedInS),
            at(eva.inS),
          ].map((text) => ({ text })),
        })),
      },
      {
        kind: "table",
        title: "Tasks",
        none: "Nothing was planned or done.",
        columns: [
          { head: "TASK", grow: 2 },
          { head: "WHO" },
          ...moments(["PLANNED", "BEGAN", "LATER", "LONGER"]),
          { head: "WHAT CAME OF IT", grow: 1.2 },
          { head: "NOTE", blankMm: 30 },
        ],
        rows: debrief.rows.filter(({ task }) => !isMark(task)).map((row) => debriefRow(plan, row)),
      },
    ],
  };
}

/** Which rules the day broke that the plan had kept, before anything that was done: who came home below a reserve is told first. */
function harmOf({ plan, planned, verdict }: Rehearsed): Body["sections"] {
  const broken = newBreaches(planned, verdict.findings);
  if (broken.length === 0) return [{ kind: "words", text: "It broke no rule that the plan had kept." }];
  const sentences = broken.map((finding) => findingWords(plan, finding));
  return [
    { kind: "words", bold: true, text: "RULES BROKEN THAT THE PLAN HAD KEPT" },
    ...sentences.map((text) => ({ kind: "words" as const, text })),
  ];
}

function debriefRow(plan: Plan, row: DebriefRow): Row {
  return {
    strong: row.must && isLost(row),
    cells: [
      { text: row.name, number: row.number },
      { text: row.crew.map((id) => nameOf(plan.crew, id)).join(" ") },
      { text: at(row.plannedStartS) },
      { text: at(row.startS) },
      { text: row.lateS === null ? "" : shift(row.lateS, "up") },
      { text: row.longerS === null ? "" : shift(row.longerS, "up") },
      { text: row.why === null ? row.outcome : `${row.outcome}: ${row.why}` },
    ],
  };
}

function moments(heads: readonly string[]): Column[] {
  return heads.map((head) => ({ head, align: "right" }));
}

function at(moment: number | null): string {
  return moment === null ? "" : clock(moment);
}

import type { Verdict } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import {
  crewName,
  evaName,
  listed,
  placeName,
  taskNumber,
  touchdownMs,
  utcStamp,
} from "../../words/index.ts";
import { planState } from "../planstate.ts";

/**
 * The schedule as iCalendar (RFC 5545): an event for each placed task and for each EVA from egress to ingress, in UTC; no event where
 * nobody has said when the lander touches down. Each says of which state of the plan it is: in a calendar of others it stands by itself.
 * `madeMs` is when it is written, milliseconds since 1970.
 */
export function scheduleCalendar(plan: Plan, verdict: Verdict, madeMs: number): string {
  const zeroMs = touchdownMs(plan);
  const lines = [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Lopeline//Surface activity plan//EN",
    // Of the whole calendar (RFC 7986, 5.1 and 5.2), and as programs before it know the same.
    ...["NAME", "X-WR-CALNAME"].map((name) => `${name}:${escaped(plan.title)}`),
    ...["DESCRIPTION", "X-WR-CALDESC"].map((name) => `${name}:${escaped(planState(plan, madeMs))}`),
    ...(zeroMs === null ? [] : eventsOf(plan, verdict, zeroMs, madeMs)),
    "END:VCALENDAR",
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join("");
}

function eventsOf(plan: Plan, verdict: Verdict, zeroMs: number, madeMs: number): readonly string[] {
  const stamp = (atS: number): string => utcStamp(zeroMs, atS).replace(/[-:]/g, "");
  const state = planState(plan, madeMs);
  const made = utcStamp(madeMs, 0).replace(/[-:]/g, "");
  const event = (id: string, span: Span, words: Readonly<Record<string, string>>): readonly string[] => [
    "BEGIN:VEVENT",
    `UID:${id}.${stamp(0)}@lopeline.invalid`,
    `DTSTAMP:${made}`,
    `DTSTART:${stamp(span.startS)}`,
    `DTEND:${stamp(span.endS)}`,
    ...Object.entries(words).map(([name, text]) => `${name}:${escaped(text)}`),
    "END:VEVENT",
  ];
  const tasks = [...plan.schedule.placements]
    .sort((a, b) => a.startS - b.startS || (a.task < b.task ? -1 : 1))
    .flatMap((placement) => {
      const task = plan.tasks.find(({ id }) => id === placement.task);
      if (!task) return [];
      const crew = listed(placement.crew.map((id) => crewName(plan, id)));
      return event(
        `task.${task.id}`,
        { startS: placement.startS, endS: placement.startS + task.duration.likelyS },
        {
          SUMMARY: `${taskNumber(plan, task.id)} ${task.name}`,
          ...(task.place === undefined ? {} : { LOCATION: placeName(plan, task.place) }),
          DESCRIPTION: `${evaName(plan, placement.eva)}${crew === "" ? "" : `, ${crew}`}. Likely duration, as planned. ${state}.`,
          CATEGORIES: task.kind,
        },
      );
    });
  const evas = plan.evas.flatMap(({ id }) => {
    const outing = verdict.outings.find(({ eva }) => eva === id);
    return outing
      ? event(`eva.${id}`, outing.span, {
          SUMMARY: evaName(plan, id),
          DESCRIPTION: `${state}.`,
          CATEGORIES: "EVA",
        })
      : [];
  });
  return [...evas, ...tasks];
}

interface Span {
  readonly startS: number;
  readonly endS: number;
}

function escaped(text: string): string {
  return text.replace(/[\\;,]/g, "\\$&").replace(/\r?\n/g, "\\n");
}

const encoder = new TextEncoder();

/** At most 75 octets a line; what is longer goes on behind a blank, no sign cut in two. */
function folded(line: string): string {
  let text = "";
  let octets = 0;
  for (const sign of line) {
    const size = encoder.encode(sign).length;
    if (octets + size > 75) {
      text += "\r\n ";
      octets = 1;
    }
    text += sign;
    octets += size;
  }
  return text;
}

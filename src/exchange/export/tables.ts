import type { BenchReason, Verdict } from "../../answers/index.ts";
import { type Plan, signoffState, type Task } from "../../plan/index.ts";
import {
  aboutWords,
  clockToSecond,
  crewName,
  evaName,
  findingWords,
  nameIn,
  numberedSentence,
  placeName,
  taskNumber,
} from "../../words/index.ts";
import { statedCsv } from "../csv.ts";
import { planState } from "../planstate.ts";

/** Tables of a plan and what the judge and the packer say of it, one thing a row; `madeMs` is when they are written, milliseconds since 1970. */

type Row = readonly (string | number)[];

/** Tasks under heads by which the window of lists takes them in again. Lengths are h:mm:ss, which is read in one way only; masses kg. */
export function tasksCsv(plan: Plan, madeMs: number): string {
  const heads = [
    "Number",
    "Task",
    "Kind",
    "Place",
    "Ends at",
    "Crew",
    "Likely",
    "At least",
    "At most",
    "Must do",
    "Worth",
    "Relay",
    "Carried out (kg)",
    "Brought back (kg)",
    "Volume brought back (L)",
    "Container",
    "Walk in it (m)",
    "After",
    "Notes",
  ];
  return statedCsv(
    planState(plan, madeMs),
    heads,
    plan.tasks.map((task) => taskRow(plan, task)),
  );
}

function taskRow(plan: Plan, task: Task): Row {
  const { duration, sample, bringsNothing } = task;
  const time = (seconds: number | undefined): string => (seconds === undefined ? "" : clockToSecond(seconds));
  return [
    taskNumber(plan, task.id),
    task.name,
    task.kind,
    task.place === undefined ? "" : placeName(plan, task.place),
    task.endPlace === undefined ? "" : placeName(plan, task.endPlace),
    crewCell(plan, task),
    time(duration.likelyS),
    time(duration.lowS),
    time(duration.highS),
    task.must ? "x" : "",
    task.worth,
    task.relay ? "x" : "",
    task.massOutKg,
    // Read back a nought says that nothing comes back: what is not known stays blank.
    bringsNothing ? 0 : sample?.massKg || "",
    sample?.volumeL || "",
    sample ? nameIn(plan.containers, sample.container) : "",
    task.walkM,
    afterCell(plan, task),
    task.notes,
  ];
}

function crewCell(plan: Plan, { crew }: Task): string {
  const { count, named } = crew;
  if (named.length === 0) return String(count);
  const names = named.map((id) => crewName(plan, id)).join(", ");
  return named.length < count ? `${names} and ${count - named.length} more` : names;
}

/** Tasks whose end it must wait for, by number; how long after stands among the links. */
function afterCell(plan: Plan, task: Task): string {
  const before = plan.links.flatMap((link) =>
    link.type === "lag" &&
    link.to.task === task.id &&
    link.from.end === "end" &&
    link.to.end === "start" &&
    (link.leastS ?? -1) >= 0
      ? [taskNumber(plan, link.from.task)]
      : [],
  );
  return before.join("; ");
}

/** The least of each consumable of each suit on each EVA: amounts in kg or Wh, the margin as a share of the stock. */
export function marginsCsv(plan: Plan, { margins }: Verdict, madeMs: number): string {
  const heads = [
    "eva",
    "crew",
    "consumable",
    "unit",
    "stock",
    "reserve",
    "least left",
    "margin share",
    "at MET s",
  ];
  const rows = margins.map((track): Row => {
    const worst = track.points.reduce<{ atS: number; value: number } | null>(
      (least, point) => (least === null || point.value < least.value ? point : least),
      null,
    );
    return [
      evaName(plan, track.eva),
      crewName(plan, track.crew),
      track.consumable,
      track.consumable === "battery" ? "Wh" : "kg",
      track.stock,
      track.reserve,
      worst?.value ?? "",
      track.margin,
      worst?.atS ?? "",
    ];
  });
  return statedCsv(planState(plan, madeMs), heads, rows);
}

/** What breaks a rule or holds by little, in the judge's words. */
export function findingsCsv(plan: Plan, { findings }: Verdict, madeMs: number): string {
  const heads = ["level", "rule", "sentence", "about", "from MET s", "to MET s", "need", "have", "unit"];
  const rows = findings.map((finding): Row => [
    finding.level,
    finding.rule,
    findingWords(plan, finding),
    finding.subjects.map(({ kind, id }) => `${kind} ${id}`).join("; "),
    finding.span?.startS ?? "",
    finding.span?.endS ?? "",
    finding.need ?? "",
    finding.have ?? "",
    finding.unit,
  ]);
  return statedCsv(planState(plan, madeMs), heads, rows);
}

/** Comments and sign-offs; of a sign-off whether it still holds. */
export function remarksCsv(plan: Plan, madeMs: number): string {
  const heads = ["what", "about", "by", "at UTC", "text", "state"];
  return statedCsv(planState(plan, madeMs), heads, [
    ...plan.comments.map(({ about, by, atUtc, text, settled }): Row => [
      "comment",
      aboutWords(plan, about),
      by,
      atUtc,
      text,
      settled ? "settled" : "open",
    ]),
    ...plan.signoffs.map((one): Row => [
      "sign-off",
      aboutWords(plan, one.about),
      one.by,
      one.atUtc,
      "",
      signoffState(plan, one),
    ]),
  ]);
}

/** Tasks that are not on the day line with the reason of each; without a reason where it has not been worked out. */
export function benchCsv(plan: Plan, reasons: ReadonlyMap<string, BenchReason>, madeMs: number): string {
  const placed = new Set(plan.schedule.placements.map(({ task }) => task));
  const rows = plan.tasks
    .filter(({ id }) => !placed.has(id))
    .map((task): Row => [
      taskNumber(plan, task.id),
      task.name,
      task.must ? "yes" : "no",
      task.worth,
      numberedSentence(plan, reasons.get(task.id)?.sentence ?? "not worked out"),
    ]);
  return statedCsv(planState(plan, madeMs), ["number", "task", "must", "worth", "reason"], rows);
}

import { duration } from "../../../kernel/index.ts";
import type { Plan, Task } from "../../../plan/index.ts";
import { text } from "../entry.ts";
import { mishap } from "../mishapentry.ts";
import { one, SOURCES } from "../nameentry.ts";
import { stepLines } from "../stepentry.ts";
import type { Field } from "../table.ts";
import { span } from "../timeentry.ts";
import { tooLong, tooLongCase } from "./toolong.ts";

const withoutLoss = (row: Task): string | null =>
  row.mishap?.spoils === true || row.mishap?.remedy
    ? null
    : "Nothing is lost: give a rare event that ends in lost.";

const withoutRemedy = (row: Task): string | null =>
  row.mishap?.remedy ? null : "Nothing makes it good: say what does first.";

function withoutPart<Whole extends object>(whole: Whole, part: keyof Whole): Whole {
  const rest = { ...whole };
  delete rest[part];
  return rest;
}

/** The task with another rare event: what makes it good stays as long as something is lost. */
function withMishap({ mishap: before, ...row }: Task, value: unknown): Task {
  const mishap = value as Task["mishap"];
  if (!mishap) return row;
  const remedy = mishap.spoils === true ? before?.remedy : undefined;
  return { ...row, mishap: { ...mishap, ...(remedy ? { remedy } : {}) } };
}

/** The task made good by `value`; a new one takes five minutes, at the end of the task or, where nobody is at work in it, of the first with crew. */
function withRemedy(row: Task, value: unknown, { tasks }: Pick<Plan, "tasks">): Task {
  if (!row.mishap) return row;
  const mishap = withoutPart(row.mishap, "remedy");
  if (typeof value !== "string" || value.trim() === "") return { ...row, mishap };
  const host = row.crew.count > 0 ? undefined : tasks.find(({ crew }) => crew.count > 0)?.id;
  const fresh = {
    duration: { likelyS: duration(300) },
    steps: [],
    ...(host === undefined ? {} : { after: host }),
  };
  return { ...row, mishap: { ...mishap, remedy: { ...(row.mishap.remedy ?? fresh), name: value.trim() } } };
}

const DURATION = { entry: span, unit: "h:mm", width: 7, group: "Duration" } as const;

/** How long a task takes, what may go wrong in it, and what makes that good. */
export const TIME_AND_LOSS = {
  likely: {
    label: "Likely",
    path: "duration.likelyS",
    heads: ["duration", "time needed", "minutes", "mins", "hours"],
    ...DURATION,
    doubt: (row: Task, plan: Plan) => tooLong(row.duration.likelyS, row, plan),
  },
  low: {
    label: "Low",
    path: "duration.lowS",
    heads: ["min", "shortest"],
    ...DURATION,
    doubt: (row: Task, plan: Plan) => tooLong(row.duration.lowS, row, plan),
  },
  high: {
    label: "High",
    path: "duration.highS",
    heads: ["max", "longest"],
    ...DURATION,
    doubt: (row: Task, plan: Plan) => tooLongCase(row.duration.highS, plan),
  },
  mishap: {
    label: "Rare event",
    path: "mishap",
    entry: mishap,
    width: 26,
    group: "Duration",
    prune: true,
    hint: "What may go wrong on a simulated day, with its chance. The likely day, and every limit, has none of it.",
    read: (row: Task) => row.mishap && withoutPart(row.mishap, "remedy"),
    write: withMishap,
  },
  remedy: {
    label: "Made good by",
    path: "mishap.remedy.name",
    entry: text,
    width: 20,
    group: "If it is lost",
    hint: "What is done only if the rare event has happened. It takes no time on the planned day, counts in the odds and is printed under IF.",
    write: withRemedy,
    apart: withoutLoss,
  },
  remedyAfter: {
    label: "At the end of",
    path: "mishap.remedy.after",
    entry: one(SOURCES.tasks, "the task itself"),
    width: 17,
    group: "If it is lost",
    hint: "The task at whose end its crew does it; one with crew.",
    apart: withoutRemedy,
  },
  remedyLikely: {
    label: "Likely",
    path: "mishap.remedy.duration.likelyS",
    entry: span,
    unit: "h:mm",
    width: 7,
    group: "If it is lost",
    apart: withoutRemedy,
  },
  remedyLow: {
    label: "Low",
    path: "mishap.remedy.duration.lowS",
    entry: span,
    unit: "h:mm",
    width: 7,
    group: "If it is lost",
    apart: withoutRemedy,
  },
  remedyHigh: {
    label: "High",
    path: "mishap.remedy.duration.highS",
    entry: span,
    unit: "h:mm",
    width: 7,
    group: "If it is lost",
    apart: withoutRemedy,
  },
  remedySteps: {
    label: "Steps if so",
    path: "mishap.remedy.steps",
    entry: stepLines([]),
    width: 30,
    group: "If it is lost",
    apart: withoutRemedy,
  },
} satisfies Record<string, Field<Task>>;

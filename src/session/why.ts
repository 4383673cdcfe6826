import type { Relaxation } from "../answers/index.ts";
import type { Plan } from "../plan/index.ts";
import { minutes, taskName } from "../words/index.ts";
import type { WhyQuestion } from "./answers.ts";
import type { Core } from "./core.ts";
import { wordsOf } from "./files.ts";
import { oneCall } from "./onecall.ts";
import { sameDay } from "./sameday.ts";
import { betterDay } from "./selectors.ts";
import type { SessionState } from "./state.ts";
import type { VariantCommands } from "./variants.ts";

/** Commands on the question why something is not on the day, or is wrong with it. */
export interface WhyCommands {
  /** Asks about a task, or with null about the day; a question under way gives way. `seconds` is 3 when left out. */
  askWhy(task: string | null, more?: { readonly finding?: string; readonly seconds?: number }): Promise<void>;
  /** Asks the same of the day as it is now. */
  askAgain(seconds?: number): Promise<void>;
  /** Ends the search; what was found stays. */
  stopWhy(): void;
  /** Puts question and answer away. */
  closeWhy(): void;
  /**
   * Makes a variant of a relaxation of the answer: its id, the same one when that was done before; null, with a notice,
   * when the plan cannot take it.
   */
  tryRelaxation(relaxation: Relaxation): string | null;
}

const SECONDS = 3;

export function whyCommands(core: Core, variants: VariantCommands): WhyCommands {
  const { state, ports } = core;
  const call = oneCall();

  const note = (part: Partial<WhyQuestion>): void =>
    state.setState((now) => (now.why ? { why: { ...now.why, ...part } } : {}));
  const end = (how: NonNullable<WhyQuestion["end"]>): void => {
    if (call.end()) note({ running: false, end: how });
  };

  core.onPlan((plan) => {
    const { why } = state.getState();
    if (!why) return;
    if (why.task !== null && !plan.tasks.some((task) => task.id === why.task)) {
      end("overtaken");
      state.setState({ why: null });
    } else if (!sameDay(why.plan, plan)) end("overtaken");
  });

  const commands: WhyCommands = {
    askWhy(task, { finding = null, seconds = SECONDS }: { finding?: string | null; seconds?: number } = {}) {
      end("stopped");
      const { plan, verdict } = state.getState();
      state.setState({ why: questionOn(plan, { task, finding, seconds, worth: verdict.score.worth }) });
      return call.ask(
        (signal, whileLive) =>
          ports.engine.why(
            plan,
            { schedule: plan.schedule, task, seed: 1, seconds },
            {
              report: whileLive((report) => note({ report })),
              signal,
            },
          ),
        {
          answered: (report) => note({ running: false, report, end: "answered" }),
          failed: (error) => note({ running: false, end: "failed", message: wordsOf(error) }),
        },
      );
    },
    async askAgain(seconds) {
      const { why } = state.getState();
      if (!why) return;
      await commands.askWhy(why.task, {
        ...(why.finding === null ? {} : { finding: why.finding }),
        seconds: seconds ?? why.seconds,
      });
    },
    stopWhy: () => end("stopped"),
    closeWhy() {
      end("stopped");
      state.setState({ why: null });
    },
    tryRelaxation(relaxation) {
      const { why } = state.getState();
      const variant = why && variantOf(core, variants, why, relaxation);
      if (why && variant !== null) note({ taken: new Map(why.taken).set(relaxation.sentence, variant) });
      return variant;
    },
  };
  return commands;
}

/** A question about `plan` that was just asked. */
function questionOn(
  plan: Plan,
  question: Pick<WhyQuestion, "task" | "finding" | "seconds" | "worth">,
): WhyQuestion {
  return { ...question, plan, running: true, report: null, end: null, message: null, taken: new Map() };
}

/** The variant of a relaxation, made anew where there is none; null, with a notice, when the plan cannot take it. */
function variantOf(
  core: Core,
  variants: VariantCommands,
  why: WhyQuestion,
  relaxation: Relaxation,
): string | null {
  const before = why.taken.get(relaxation.sentence);
  const { plan } = core.state.getState();
  if (before !== undefined && plan.variants.some((variant) => variant.id === before)) return before;
  const { edit, schedule, sentence, owner } = relaxation;
  const kept = variants.keepOffered(nameFor(why, relaxation), { edit, schedule, sentence, owner });
  if (kept.ok) return kept.value;
  core.notice("problem", `No variant was made: ${kept.error[0]?.message ?? "the plan cannot take it"}.`);
  return null;
}

/** True when the day is no longer the one that was asked about. */
export function whyIsStale({ why, plan }: SessionState): boolean {
  return why !== null && !sameDay(why.plan, plan);
}

/**
 * Why `task` is on the bench, in one sentence: what the open question why found out, where it is about this task and this day, and else the bench's
 * own reason. So card, panel and offers have one figure, that of the trial; the bench alone has none. Null while nothing is known, and
 * while a better day of the packer stands on the line: no reason is of that day.
 */
export function benchSays(state: SessionState, task: string): string | null {
  if (betterDay(state)) return null;
  const { why } = state;
  const report = why?.task === task && !whyIsStale(state) ? why.report : null;
  if (report?.task === task && report.state !== "looking") {
    const [first] = report.relaxations;
    // What the bench says has figures in it, which the count of conditions has not.
    if (!first) return state.benchReasons.get(task)?.sentence ?? report.sentence;
    return report.state === "conflict" ? `What would give: ${first.sentence}` : first.sentence;
  }
  return state.benchReasons.get(task)?.sentence ?? null;
}

const LONGEST_NAME = 120;
const LONGEST_TASK = 44;

/** What the variant is called: the task it makes room for, and what gives. */
function nameFor(why: WhyQuestion, relaxation: Relaxation): string {
  const task = why.plan.tasks.find((one) => one.id === why.task)?.name ?? "Mended";
  return cut(`${cut(task, LONGEST_TASK)}: ${gives(why, relaxation)}`, LONGEST_NAME);
}

/** What gives, in few words. */
function gives({ plan }: WhyQuestion, { kind, steps, dropped, sentence }: Relaxation): string {
  const [first, ...others] = dropped;
  if (first !== undefined) {
    const name = taskName(plan, first);
    return `without ${name}${others.length > 0 ? ` and ${others.length} more` : ""}`;
  }
  if (kind === "lag") return `a lag eased by ${minutes(steps * 60, "given")}`;
  if (kind === "rearrange") return "placed tasks move";
  return sentence.split(": ")[0]!.replace(/\.$/, "");
}

/** At most so long, broken off between words where one ends in time. */
function cut(text: string, most: number): string {
  if (text.length <= most) return text;
  const head = text.slice(0, most - 1);
  const space = head.lastIndexOf(" ");
  return `${(space > most / 2 ? head.slice(0, space) : head).replace(/[\s,;:.]+$/, "")}…`;
}

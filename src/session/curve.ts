import type { CurveReport, WishedDay } from "../answers/index.ts";
import type { Outcome } from "../kernel/index.ts";
import { editBetween, type Fault, type Plan, sameFrame } from "../plan/index.ts";
import { cautionSentence, percent } from "../words/index.ts";
import type { CurveWork } from "./answers.ts";
import type { Core } from "./core.ts";
import type { EditCommands } from "./editing.ts";
import { wordsOf } from "./files.ts";
import { oneCall } from "./onecall.ts";
import type { SessionState } from "./state.ts";
import type { VariantCommands } from "./variants.ts";

/** Commands about the curve: worth on average against the chance of every must-do done, and the days along it. */
export interface CurveCommands {
  /** Works the curve out in spare time; a change of the plan while it is at work ends it. */
  askCurve(seconds: number): Promise<void>;
  /** Ends the search: what was found is counted, and is the answer. */
  stopCurve(): void;
  /** Makes a day of the curve the day, with the caution it was chosen for, as one step. */
  takeCurveDay(day: WishedDay): void;
  /** Keeps a day of the curve as a variant of this name; the answer is its id. */
  keepCurveDay(name: string, day: WishedDay): Outcome<string, readonly Fault[]>;
}

export function curveCommands(core: Core, edits: EditCommands, variants: VariantCommands): CurveCommands {
  const { state, ports } = core;
  const call = oneCall();
  let enough = new AbortController();

  const note = (part: Partial<NonNullable<SessionState["curve"]>>): void =>
    state.setState((now) => (now.curve ? { curve: { ...now.curve, ...part } } : {}));
  const end = (how: "stopped" | "overtaken"): void => {
    if (call.end()) note({ running: false, isStopped: false, end: how });
  };
  core.onPlan(() => end("overtaken"));
  // Whoever takes a task in hand is at work: the spare time is over.
  state.subscribe((now, before) => {
    if (now.preview !== null && before.preview === null) end("overtaken");
  });

  return {
    askCurve(seconds) {
      end("stopped");
      const { plan, curve: known } = state.getState();
      const report = known && sameRequests(known.plan, plan) ? known.report : null;
      state.setState({ curve: begun(plan, seconds, report) });
      enough = new AbortController();
      return call.ask(
        (signal, whileLive) =>
          (ports.spare?.() ?? ports.engine).curve(
            plan,
            { seed: 1, seconds },
            {
              report: whileLive((progress) => note({ progress })),
              signal,
              enough: enough.signal,
            },
          ),
        {
          answered: (report) =>
            note({ running: false, report, end: enough.signal.aborted ? "stopped" : "answered" }),
          failed: (error) => note({ running: false, end: "failed", message: wordsOf(error) }),
        },
      );
    },
    stopCurve() {
      if (!call.busy()) return;
      note({ isStopped: true });
      enough.abort();
    },
    takeCurveDay: ({ schedule, caution, wish }) =>
      edits.reschedule(
        `Take the day for must-do ${percent(wish.must, "given")}`,
        { placements: [...schedule.placements] },
        caution,
      ),
    keepCurveDay: (name, day) => variants.keepOffered(name, offeredBy(state.getState().plan, day)),
  };
}

/** A curve that is being searched for; `report` is of the run before. */
function begun(plan: Plan, seconds: number, report: CurveReport | null): CurveWork {
  return { plan, seconds, running: true, isStopped: false, progress: null, report, end: null, message: null };
}

/** A day of the curve as a variant has it: its schedule, and the caution that it was chosen for. */
function offeredBy(
  plan: Plan,
  { schedule, caution }: WishedDay,
): Parameters<VariantCommands["keepOffered"]>[1] {
  const odds = { ...plan.odds, crew: { ...plan.odds.crew, caution } };
  const sentence = cautionSentence(plan.odds.crew.caution, caution);
  return { edit: editBetween(sentence, plan, { ...plan, odds }), schedule, sentence, owner: null };
}

/** True when the curve that is there is of the requests, crew and limits of the open plan: its schedule does not matter. */
export function isCurveCurrent({ curve, plan }: SessionState): boolean {
  return curve !== null && sameRequests(curve.plan, plan);
}

/**
 * True when a curve is missing, or of another plan, and nothing speaks against working it out: nothing is in hand, the packer rests. What
 * was stopped or has failed is not due again until the plan changes.
 */
export function curveIsDue(state: SessionState): boolean {
  const { curve, plan, run, preview } = state;
  if (run?.running || preview !== null || plan.tasks.length === 0) return false;
  if (!curve || !isCurveCurrent(state)) return !curve?.running;
  return !curve.running && curve.end === "overtaken" && curve.report === null;
}

/** The same but for the schedule and what is chosen along the curve: each of its days has a wish and a caution of its own. */
function sameRequests(a: Plan, b: Plan): boolean {
  const { wish, crew } = b.odds;
  const odds = {
    ...a.odds,
    wish: { ...a.odds.wish, must: wish.must },
    crew: { ...a.odds.crew, caution: crew.caution },
  };
  return sameFrame({ ...a, odds }, b);
}

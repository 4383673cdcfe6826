import { createStore, type StoreApi } from "zustand/vanilla";
import type { Verdict } from "../answers/index.ts";
import {
  applyEdit,
  applyPatch,
  type Edit,
  isEmptyEdit,
  parse,
  type Plan,
  type Schedule,
} from "../plan/index.ts";
import { blankPlan, blankVerdict } from "./blank.ts";
import { type HeavySteps, heavySteps } from "./heavysteps.ts";
import { emptyHistory, type History, recorded } from "./history.ts";
import type { SessionPorts } from "./ports.ts";
import type { SessionState, Notice } from "./state.ts";

/** What the session's commands share: the state, the judge, and the one way a plan is replaced. */
export interface Core {
  readonly ports: SessionPorts;
  readonly state: StoreApi<SessionState>;
  /** Has what is dear to judge in a plan worked out before it is laid; false where that was broken off. */
  makeReady(plan: Plan): Promise<boolean>;
  /** The judge's word on a schedule of the open plan. */
  judge(schedule: Schedule): Verdict;
  /** Opens a plan with the verdict on its schedule; the gesture under way, if any, ends without effect. */
  show(plan: Plan, history: History): void;
  /** Opens another plan, which lies in `slot` of the shelf; what was on it is only left, not changed. */
  lay(plan: Plan, history: History, slot: string, writing?: SessionState["writing"]): void;
  /** Applies an edit as one step of the history; an empty one leaves no mark. Where its ways take long it is made when they are known. */
  step(edit: Edit): void;
  /** Steps that wait for their ways; null where nothing is worked out beside the page. */
  readonly heavy: HeavySteps | null;
  /** True where this window may change the plan; where another one writes it, that is said. */
  mayWrite(): boolean;
  notice(tone: Notice["tone"], text: string): void;
  /** Called after every change of the open plan. */
  onPlan(listener: (plan: Plan) => void): void;
}

const ELSEWHERE =
  "This plan is being written in another window. Take it over here, or open a copy of it, to change it.";

/** A core with a blank plan in the session. */
export function createCore(ports: SessionPorts): Core {
  const plan = blankPlan(ports.clock.nowMs());
  const state = createStore<SessionState>()(() => stateOf(plan, ports));
  const judgeOf = judging(ports);
  const listeners: ((plan: Plan) => void)[] = [];

  const core: Core = {
    ports,
    state,
    makeReady: async (next) => (await ports.makeReady?.(next)) ?? true,
    judge: (schedule) => judgeOf(state.getState().plan)(schedule),
    show: (next, history) => put(next, history, {}),
    lay: (next, history, slot, writing = "here") =>
      put(next, history, {
        slot,
        writing,
        refusal: null,
        selection: [],
        run: null,
        benchReasons: new Map(),
      }),
    mayWrite() {
      const { writing, notices } = state.getState();
      if (writing === "here") return true;
      if (!notices.some((one) => one.text === ELSEWHERE)) core.notice("problem", ELSEWHERE);
      return false;
    },
    step: (edit) => step(core, edit),
    heavy: ports.makeReady
      ? heavySteps({
          now: state.getState,
          makeReady: ports.makeReady,
          show: ({ plan: next, history }) => put(next, history, {}),
          tell: (tone, words) => core.notice(tone, words),
        })
      : null,
    notice(tone, text) {
      const notice: Notice = { id: ports.newId(), tone, text };
      state.setState((now) => ({ notices: [...now.notices, notice] }));
    },
    onPlan(listener) {
      listeners.push(listener);
    },
  };

  function put(next: Plan, history: History, more: Partial<SessionState>): void {
    const { selection } = { ...state.getState(), ...more };
    const known = new Set(next.tasks.map((task) => task.id));
    const kept = selection.filter((task) => known.has(task));
    state.setState({
      ...more,
      plan: next,
      verdict: judgeOf(next)(next.schedule),
      history,
      preview: null,
      fitBands: null,
      selection: kept.length === selection.length ? selection : kept,
    });
    for (const listener of listeners) listener(next);
  }
  return core;
}

/** A session with `plan` open, and nothing asked or answered yet. */
function stateOf(plan: Plan, ports: SessionPorts): SessionState {
  return {
    slot: ports.newId(),
    writing: "here",
    plan,
    author: ports.author?.get() ?? "",
    verdict: blankVerdict(plan),
    preview: null,
    selection: [],
    history: emptyHistory,
    run: null,
    fitBands: null,
    benchReasons: new Map(),
    benchAsOf: null,
    why: null,
    chances: null,
    curve: null,
    odds: new Map(),
    lateTable: null,
    printed: null,
    refusal: null,
    saving: { status: "unsaved", savedAtMs: null, message: null },
    notices: [],
  };
}

/** The judge of a plan; that of the last one is kept. */
function judging({ judgeFor }: SessionPorts): (plan: Plan) => (schedule: Schedule) => Verdict {
  let last: { readonly plan: Plan; readonly judge: (schedule: Schedule) => Verdict } | null = null;
  return (plan) => {
    if (last?.plan !== plan) last = { plan, judge: judgeFor(plan) };
    return last.judge;
  };
}

function step(core: Core, edit: Edit): void {
  if (isEmptyEdit(edit) || !core.mayWrite()) return;
  const { plan: before, history } = core.state.getState();
  const after = applyEdit(before, edit);
  const later = (from: { readonly plan: Plan; readonly history: History }) => {
    const made = applyPatch(from.plan, edit.patch);
    if (!made.ok || !parse(made.value).ok) return null;
    return { plan: made.value, history: recorded(from.history, edit) };
  };
  if (core.heavy?.takes({ name: edit.name, make: later }, before, after)) return;
  core.show(after, recorded(history, edit));
}

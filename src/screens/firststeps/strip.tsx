import { useMemo, useState } from "react";
import type { Plan } from "../../plan/index.ts";
import {
  benchSays,
  chancesAtRest,
  type Session,
  type SessionState,
  currentPack,
} from "../../session/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import type { ViewStore } from "../viewstate.ts";
import { Prose } from "../parts/prose.tsx";
import { put } from "./shown.ts";
import { leadingStep, type LeftOut, type FirstStep, firstSteps, stepKey, type StepId } from "./steps.ts";

const STATE_WORDS: Readonly<Record<FirstStep["state"], string>> = {
  open: "something is missing",
  begun: "not settled yet",
  done: "done",
};
/** What leads to a step, by the page of setup where it is done, else by the step. */
const LEADS: Readonly<Record<string, string>> = {
  site: "To site and places",
  stay: "To the stay",
  crew: "To crew and suits",
  evas: "To EVAs",
  tasks: "To the tasks",
  pack: "Pack the day",
  findings: "To the findings",
  wish: "To the odds",
  paper: "To paper",
};

function leadWords({ id, page, about }: FirstStep): string {
  return about === undefined ? LEADS[page ?? id]! : "Why not?";
}

/** The strip that leads from an empty plan to a packed day. */
export function Strip() {
  const { session, view, memory } = useApp();
  const packing = useSession((state) => state.run?.running ?? false);
  const steps = useSteps();
  const { next, shown, go } = useWayThrough(steps);
  const leadOn = (): void => {
    if (next.about !== undefined) {
      view.setState({ screen: "day" });
      void session.askWhy(next.about);
    } else if (next.id === "pack") pack(session, view);
    else go(next);
  };
  return (
    <section className="first-steps" aria-label="Steps to a packed day">
      <ol>
        {steps.map((step, i) => (
          <li key={step.id}>
            <StepButton step={step} number={i + 1} isNext={step === next} go={go} />
          </li>
        ))}
      </ol>
      <p role="status">
        {packing ? (
          "Packing: the day is taken over when it is through."
        ) : (
          <>
            <b>{shown.full}.</b> <Prose words={shown.sentence} />
          </>
        )}
      </p>
      <button
        type="button"
        className="first-steps-lead"
        disabled={packing}
        title={packing ? "The packer is at work." : undefined}
        onClick={leadOn}
      >
        {leadWords(next)}
      </button>
      <button
        type="button"
        className="quiet"
        title="The list of commands brings the steps back"
        onClick={() => {
          put(view, memory, false);
          view.setState({ spoken: "Steps put away. The list of commands, Ctrl+K, brings them back." });
        }}
      >
        Put away
      </button>
    </section>
  );
}

/** The steps of the open plan, each with how far it is. */
function useSteps(): readonly FirstStep[] {
  const { sunDeg } = useApp();
  const plan = useSession((state) => state.plan);
  const verdict = useSession((state) => state.verdict);
  const chances = useSession(chancesAtRest);
  const first = useSession(leftOutFirst);
  const reason = useSession((state) => (first ? benchSays(state, first) : null));
  const left = useMemo(() => leftOut(plan, first, reason), [plan, first, reason]);
  return useMemo(
    () => firstSteps(plan, verdict, left, (atS) => sunDeg(plan, atS), chances),
    [plan, verdict, left, sunDeg, chances],
  );
}

/** Which step is the next, which one is told of, and the way to where one is done. */
function useWayThrough(steps: readonly FirstStep[]) {
  const { view } = useApp();
  const fresh = useSession((state) => state.plan.tasks.length === 0);
  const [gone, setGone] = useState<ReadonlySet<string>>(new Set());
  const next = leadingStep(steps, fresh, gone);
  // A step that was pressed is told of until its place is left, or until another one is the next.
  const here = useView(({ screen, setupPage }) => (screen === "setup" ? setupPage : screen));
  const [picked, pick] = useState<{ readonly id: StepId; readonly at: string; readonly next: StepId } | null>(
    null,
  );
  const isStillPicked = picked !== null && picked.next === next.id && picked.at === here;
  const shown = (isStillPicked && steps.find((one) => one.id === picked.id)) || next;
  const go = (step: FirstStep): void => {
    const now = new Set([...gone, stepKey(step)]);
    setGone(now);
    pick({ id: step.id, at: step.page ?? screenOf(step), next: leadingStep(steps, fresh, now).id });
    lead(view, step);
  };
  return { next, shown, go };
}

function StepButton(props: {
  readonly step: FirstStep;
  readonly number: number;
  readonly isNext: boolean;
  go(step: FirstStep): void;
}) {
  const { step, number, isNext, go } = props;
  return (
    <button
      type="button"
      className="quiet"
      data-state={step.state}
      aria-current={isNext ? "step" : undefined}
      aria-label={`${step.name}. ${step.full}: ${STATE_WORDS[step.state]}. ${step.sentence}`}
      title={`${step.full}: ${step.sentence}`}
      onClick={() => go(step)}
    >
      <span className="first-steps-mark" aria-hidden="true">
        {step.state === "done" ? <Tick /> : number}
      </span>
      {step.name}
    </button>
  );
}

/** The first task that a pack has left out and that should be on the day; null when there is none, or no pack. */
function leftOutFirst(state: SessionState): string | null {
  const { plan, verdict } = state;
  if (currentPack(state) === null || (verdict.placed > 0 && verdict.score.mustLeftOut === 0)) return null;
  const placed = new Set(plan.schedule.placements.map((one) => one.task));
  const first = plan.tasks.find(
    (task) => !placed.has(task.id) && (task.must || (verdict.placed === 0 && task.worth > 0)),
  );
  return first?.id ?? null;
}

function leftOut({ tasks }: Plan, id: string | null, reason: string | null): LeftOut | null {
  const task = tasks.find((one) => one.id === id);
  return task && reason !== null ? { task: task.id, name: task.name, reason } : null;
}

/** Drawn, since not every face has the sign. */
function Tick() {
  return (
    <svg viewBox="0 0 12 12" width="12" height="12">
      <path d="M1.5 6.5 L4.5 9.5 L10.5 2.5" fill="none" stroke="currentColor" strokeWidth="2" />
    </svg>
  );
}

function pack(session: Session, view: ViewStore): void {
  view.setState({ screen: "day" });
  session.commands.run("pack");
}

/** What takes the keyboard where a step is done: the first of these that is on the page, else the tab of its page. */
const HANDS: Readonly<Record<string, readonly string[]>> = {
  stay: ['[data-table="stay"] [data-cell]'],
  crew: [".crew-sets button"],
  evas: ['[data-table="evas"] [data-cell]'],
  tasks: ['[aria-label="Add a task from a template"]'],
  pack: [".runner .primary"],
  findings: [".finding", ".runner .primary"],
  wish: [".odds-tools button"],
  paper: [".paper-tools .primary", ".paper-tools button"],
};
const ADD_PLACE = '[data-table="places"] .primary';
const LATITUDE = '[data-table="site"] tbody tr:nth-child(2) [data-cell]';

function handsOf({ id, page, state }: FirstStep): readonly string[] {
  if (page === "site") return [state === "begun" ? LATITUDE : ADD_PLACE];
  return HANDS[page ?? id] ?? [];
}

/** The screen of a step that is done on no page of setup. */
function screenOf({ id }: FirstStep): "paper" | "odds" | "day" {
  return id === "paper" ? "paper" : id === "wish" ? "odds" : "day";
}

/** Shows where a step is done and gives the keyboard to what does it. */
function lead(view: ViewStore, step: FirstStep): void {
  const { page } = step;
  if (page !== null) view.setState({ screen: "setup", setupPage: page });
  else view.setState({ screen: screenOf(step) });
  giveKeyboard([...handsOf(step), `#setup-tab-${page}`]);
}

/** Gives the keyboard to the first of what is looked for, as soon as the screen with it is there, unless it went elsewhere. */
function giveKeyboard(hands: readonly string[]): void {
  const from = document.activeElement;
  const give = (): boolean => {
    const found = hands.map((hand) => document.querySelector<HTMLElement>(hand)).find((one) => one !== null);
    found?.focus();
    return found !== undefined;
  };
  // The screen is there a frame after it was asked for, or when it has been fetched.
  requestAnimationFrame(() => {
    if (give()) return;
    const watch = new MutationObserver(() => {
      if (document.activeElement !== from || give()) watch.disconnect();
    });
    watch.observe(document.body, { childList: true, subtree: true });
  });
}

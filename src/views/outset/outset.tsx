import { useEffect, useMemo, useState } from "react";
import { type Desk, type DeskState, packStands } from "../../store/index.ts";
import { useAround, useDesk, useLook } from "../context.ts";
import type { Look } from "../look.ts";
import type { Services } from "../services.ts";
import { nextStep, type OutsetStep, outsetSteps, type StepId } from "./steps.ts";

const KEPT = "outset";
const STATE_WORDS: Readonly<Record<OutsetStep["state"], string>> = {
  open: "something is missing",
  begun: "as the empty plan has it",
  done: "done",
};
const LEADS: Readonly<Record<StepId, string>> = {
  where: "To site and places",
  crew: "To crew and suits",
  evas: "To EVAs",
  requests: "To the tasks",
  pack: "Pack the day",
  findings: "To the findings",
  paper: "To paper",
};

/** The strip that leads from an empty plan to a packed day; it stays until it is put away. */
export function Outset() {
  const { desk, look, memory } = useAround();
  const shown = useLook((state) => state.outset);
  const empty = useDesk((state) => state.plan.tasks.length === 0);
  useEffect(() => {
    const kept = memory.get(KEPT);
    if (kept === "shown" || (kept === null && empty)) put(look, memory, true);
  }, [empty, look, memory]);
  useEffect(
    () =>
      desk.commands.add([
        {
          id: "outset",
          name: () => `${look.getState().outset ? "Put away" : "Show"} the steps to a packed day`,
          group: "View",
          keys: [],
          where: "page",
          hindered: () => null,
          run: () => put(look, memory, !look.getState().outset),
        },
      ]),
    [desk, look, memory],
  );
  return shown ? <Strip /> : null;
}

function put(look: Look, memory: Services["memory"], outset: boolean): void {
  memory.set(KEPT, outset ? "shown" : "away");
  if (look.getState().outset !== outset) look.setState({ outset });
}

function Strip() {
  const { desk, look, memory } = useAround();
  const plan = useDesk((state) => state.plan);
  const verdict = useDesk((state) => state.verdict);
  const packing = useDesk((state) => state.run?.running ?? false);
  const stuck = useDesk(stuckBy);
  const steps = useMemo(() => outsetSteps(plan, verdict, stuck), [plan, verdict, stuck]);
  const next = nextStep(steps);
  // A step that was pressed is told of until another one is the next.
  const [asked, ask] = useState<{ readonly id: StepId; readonly next: StepId } | null>(null);
  const told = (asked?.next === next.id && steps.find((one) => one.id === asked.id)) || next;
  const go = (step: OutsetStep): void => {
    ask({ id: step.id, next: next.id });
    lead(look, step);
  };
  return (
    <section className="outset" aria-label="Steps to a packed day">
      <ol>
        {steps.map((step, i) => (
          <li key={step.id}>
            <button
              type="button"
              className="quiet"
              data-state={step.state}
              aria-current={step === next ? "step" : undefined}
              aria-label={`${step.name}. ${step.full}: ${STATE_WORDS[step.state]}. ${step.sentence}`}
              title={`${step.full}: ${step.sentence}`}
              onClick={() => go(step)}
            >
              <span className="outset-mark" aria-hidden="true">
                {step.state === "done" ? <Tick /> : i + 1}
              </span>
              {step.name}
            </button>
          </li>
        ))}
      </ol>
      <p role="status">
        {packing ? (
          "Packing: the day is taken over when it is through."
        ) : (
          <>
            <b>{told.full}.</b> {told.sentence}
          </>
        )}
      </p>
      <button
        type="button"
        className="outset-lead"
        disabled={packing}
        onClick={() => (told.id === "pack" ? pack(desk, look) : go(told))}
      >
        {LEADS[told.id]}
      </button>
      <button
        type="button"
        className="quiet"
        title="The list of commands brings the steps back"
        onClick={() => {
          put(look, memory, false);
          look.setState({ spoken: "Steps put away. The list of commands, Ctrl+K, brings them back." });
        }}
      >
        Put away
      </button>
    </section>
  );
}

/** Why the first task is on the bench after a pack that placed nothing; null when it is not so. */
function stuckBy(state: DeskState): string | null {
  const first = state.plan.tasks.find((task) => task.worth > 0 || task.must);
  if (!first || state.verdict.placed > 0 || packStands(state) === null) return null;
  const reason = state.benchReasons.get(first.id);
  return reason ? `${first.name}: ${reason.sentence}` : null;
}

/** Drawn, since not every face has the sign. */
function Tick() {
  return (
    <svg viewBox="0 0 12 12" width="12" height="12">
      <path d="M1.5 6.5 L4.5 9.5 L10.5 2.5" fill="none" stroke="currentColor" strokeWidth="2" />
    </svg>
  );
}

function pack(desk: Desk, look: Look): void {
  look.setState({ screen: "day" });
  desk.commands.run("pack");
}

/** What takes the keyboard where a step is done: the first of these that is on the page, else the tab of its page. */
const HANDS: Readonly<Partial<Record<StepId, readonly string[]>>> = {
  crew: [".crew-sets button"],
  requests: ['[aria-label="Add a task of a sort"]'],
  pack: [".runner .primary"],
  findings: [".finding", ".runner .primary"],
  paper: [".paper-tools .primary", ".paper-tools button"],
};

/** Shows where a step is done and gives the keyboard to what does it. */
function lead(look: Look, { id, page }: OutsetStep): void {
  if (page !== null) look.setState({ screen: "setup", setupPage: page });
  else look.setState({ screen: id === "paper" ? "paper" : "day" });
  // The screen is there a frame after it was asked for.
  requestAnimationFrame(() => {
    for (const hand of [...(HANDS[id] ?? []), `#setup-tab-${page}`]) {
      const found = document.querySelector<HTMLElement>(hand);
      if (found) return found.focus();
    }
  });
}

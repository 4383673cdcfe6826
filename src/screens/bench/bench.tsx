import { memo, useDeferredValue, useMemo, useState } from "react";
import type { BenchReason } from "../../answers/index.ts";
import type { Plan, Schedule, Task } from "../../plan/index.ts";
import { benchSays, isBenchCurrent, betterDay, type SessionState } from "../../session/index.ts";
import { counted, lasting, numberedSentence, placeName, taskNumber } from "../../words/index.ts";
import { useApp, useSession, useSessionList, useView } from "../context.ts";
import { useDay } from "../day/context.ts";
import { Prose } from "../parts/prose.tsx";
import { KIND_LETTERS, KIND_WORDS } from "../words.ts";

/** The tasks that are not on the day line, must-do ones first, with why each one is not. Held tasks are dropped here. */
export const Bench = memo(function Bench() {
  const { view } = useApp();
  const tasks = useSessionList(benchOfPlan);
  const plan = useSession((state) => state.plan);
  // Where a task would fit is of the day before the packer's.
  const reasons = useSession((state) => (betterDay(state) ? NONE : state.benchReasons));
  const isCurrent = useSession(isBenchCurrent);
  const over = useView((state) => state.inHand?.target.at === "bench");
  const [words, setWords] = useState("");
  const wanted = useDeferredValue(words);
  const selection = useSession((state) => state.selection);
  const says = useReasons(tasks);
  const listed = useMemo(() => found(tasks, wanted), [tasks, wanted]);
  const must = tasks.filter((task) => task.must).length;

  return (
    <section className={over ? "bench over" : "bench"} aria-label="Bench" data-bench>
      <header className="part-head">
        <h2>Bench</h2>
        <span className="note">
          {counted(tasks.length, "task")}
          {must > 0 && <b className="must-count">{counted(must, "must-do", "must-do")}</b>}
        </span>
        <input
          type="search"
          aria-label="Find on the bench"
          placeholder="Find"
          value={words}
          onChange={(event) => setWords(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === "Escape") setWords("");
          }}
        />
      </header>
      {tasks.length === 0 && (
        <p className="empty">
          {plan.tasks.length === 0
            ? "There is no task yet: add some under Setup."
            : "Every task is on the day line."}
        </p>
      )}
      {tasks.length > 0 && listed.length === 0 && (
        <p className="empty">No task on the bench matches “{words}”.</p>
      )}
      <ul className="cards" onFocus={() => view.setState({ focus: null })}>
        {listed.map((task) => (
          <Card
            key={task.id}
            task={task}
            tasks={plan.tasks}
            place={placeName(plan, task.place)}
            says={says.get(task.id) ?? null}
            selected={selection.includes(task.id)}
            reason={reasons.get(task.id) ?? null}
            isCurrent={isCurrent}
          />
        ))}
      </ul>
    </section>
  );
});

const NONE: SessionState["benchReasons"] = new Map();

/** Why each of these tasks is not on the line: asked once for all cards, in every frame of a move. */
function useReasons(tasks: readonly Task[]): ReadonlyMap<string, string | null> {
  const reasons = useSessionList((state) => tasks.map(({ id }) => benchSays(state, id)));
  return useMemo(() => new Map(tasks.map(({ id }, i) => [id, reasons[i] ?? null])), [tasks, reasons]);
}

let lastBench: { readonly plan: Plan; readonly schedule: Schedule; readonly tasks: readonly Task[] } | null =
  null;

/** What is on the bench of the plan itself, or of the better day that the packer shows: a task in hand keeps its card, and with it the focus. Sorted once a plan. */
function benchOfPlan(state: SessionState): readonly Task[] {
  const { plan } = state;
  const schedule = betterDay(state)?.best ?? plan.schedule;
  if (lastBench?.plan !== plan || lastBench.schedule !== schedule)
    lastBench = { plan, schedule, tasks: sortedBench(plan, schedule) };
  return lastBench.tasks;
}

function sortedBench(plan: Plan, schedule: Schedule): readonly Task[] {
  const placed = new Set(schedule.placements.map((placement) => placement.task));
  return plan.tasks
    .filter((task) => !placed.has(task.id))
    .toSorted((a, b) => Number(b.must) - Number(a.must) || b.worth - a.worth || (a.name < b.name ? -1 : 1));
}

function found(tasks: readonly Task[], words: string): readonly Task[] {
  const parts = words.toLowerCase().split(/\s+/).filter(Boolean);
  if (parts.length === 0) return tasks;
  return tasks.filter((task) => {
    const text = `${task.name} ${task.kind} ${task.place ?? ""} ${task.must ? "must" : ""}`.toLowerCase();
    return parts.every((part) => text.includes(part));
  });
}

const Card = memo(function Card(props: {
  readonly task: Task;
  readonly tasks: Plan["tasks"];
  readonly place: string;
  /** Why it is not on the line; null while that is not known. */
  readonly says: string | null;
  readonly selected: boolean;
  readonly reason: BenchReason | null;
  /** Whether the reason is of the day as it is. */
  readonly isCurrent: boolean;
}) {
  const { task, tasks, place, reason, isCurrent, says, selected } = props;
  const isInHand = useView((state) => state.inHand?.task === task.id);
  const why = useMemo(() => (says === null ? null : numberedSentence({ tasks }, says)), [tasks, says]);
  return (
    <li className={isInHand ? "card held" : "card"} data-selected={selected} {...useCardHand(task, selected)}>
      <span className={`kind ${task.kind}`} aria-hidden="true">
        {KIND_LETTERS[task.kind]}
      </span>
      <CardHandle
        task={task}
        number={taskNumber({ tasks }, task.id)}
        place={place === "no place" ? null : place}
        selected={selected}
        why={why}
      />
      <b className="card-worth">{task.worth}</b>
      <p className="card-why">
        {isInHand ? "In hand." : why && <Prose words={why} />}{" "}
        {!isInHand && (
          <span className="card-acts">
            {reason?.fitsAt && <PutOn task={task} at={reason.fitsAt} isCurrent={isCurrent} />}
            {(says !== null || selected) && <WhyNot task={task} />}
          </span>
        )}
      </p>
    </li>
  );
});

/** What the pointer does on a card: a press takes the task in hand, the other button opens its menu. */
function useCardHand({ id, duration }: Task, selected: boolean) {
  const { session, view } = useApp();
  const { gesture } = useDay();
  return {
    onPointerDown: (event: React.PointerEvent): void => {
      const button = event.target instanceof Element ? event.target.closest("button") : null;
      // All of the card is its grip, but for the buttons that do something else.
      if (event.button !== 0 || (button && !button.matches(".card-grip"))) return;
      const more = event.shiftKey || event.ctrlKey || event.metaKey;
      const offsetS = Math.min(300, duration.likelyS / 2);
      gesture.press(event.nativeEvent, { task: id, lane: null, offsetS, more });
    },
    onContextMenu: (event: React.MouseEvent): void => {
      event.preventDefault();
      if (gesture.active()) return;
      gesture.forget();
      if (!selected) session.select([id]);
      view.setState({ menu: { x: event.clientX, y: event.clientY } });
    },
  };
}

/** By what a card is taken with keys or by a reader: its name and facts, and all of them in words. */
function CardHandle(props: {
  readonly task: Task;
  readonly number: string;
  /** Null where it has none. */
  readonly place: string | null;
  readonly selected: boolean;
  readonly why: string | null;
}) {
  const { task, number, place, selected, why } = props;
  const { session } = useApp();
  const length = lasting(task.duration.likelyS, "down");
  const { count } = task.crew;
  const crew = count === 0 ? "by command" : counted(count, "crew", "crew");
  return (
    <button
      type="button"
      className="card-grip"
      data-task={task.id}
      aria-pressed={selected}
      aria-label={`${task.name}, ${KIND_WORDS[task.kind].toLowerCase()}, ${length}, ${crew}, worth ${task.worth}${task.must ? ", must do" : ""}${place === null ? "" : `, at ${place}`}, number ${number}. ${why ?? ""}`}
      onClick={(event) => {
        // A pointer's click was taken by the hand; this one comes from a reader's or a switch's own press.
        if (event.detail === 0) session.select([task.id]);
      }}
    >
      <span className="card-name narrow" title={task.name}>
        <span className="task-number">{number}</span> {task.name}
      </span>
      <span className="card-facts narrow">
        {length}
        {count === 0 ? " · by command" : count > 1 ? ` × ${count}` : ""}
        {task.must && <b> · must-do</b>}
        {place !== null && ` · ${place}`}
      </span>
    </button>
  );
}

/** Why nothing is put on by a reason of the day before. */
const STALE_WORDS = "The day has changed: whether it still fits is being looked into.";

function PutOn(props: {
  readonly task: Task;
  readonly at: NonNullable<BenchReason["fitsAt"]>;
  readonly isCurrent: boolean;
}) {
  const { task, at, isCurrent } = props;
  const { session } = useApp();
  return (
    <button
      type="button"
      className="quiet card-put"
      aria-label={`Put ${task.name} on the line`}
      aria-disabled={!isCurrent}
      title={isCurrent ? undefined : STALE_WORDS}
      onClick={() => {
        if (isCurrent) session.place(task.id, { ...at, crew: [...at.crew] });
      }}
    >
      Put on
    </button>
  );
}

function WhyNot({ task }: { readonly task: Task }) {
  const { session } = useApp();
  return (
    <button
      type="button"
      className="quiet card-ask"
      aria-label={`Why not? ${task.name}`}
      onClick={() => void session.askWhy(task.id)}
    >
      Why not?
    </button>
  );
}

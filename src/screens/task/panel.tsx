import "./task.css";
import { memo, useEffect, useMemo, useRef } from "react";
import type { Link, Plan, Task } from "../../plan/index.ts";
import { placementsByTask, shownTasks } from "../../session/index.ts";
import {
  cautionLine,
  counted,
  doersOf,
  gravestFirst,
  groupWords,
  stepLine,
  taskNumber,
} from "../../words/index.ts";
import { numberedLink } from "../fields/links.ts";
import { useApp, useSession, useView } from "../context.ts";
import { TASK_FIELDS } from "../fields/task/fields.ts";
import { taskTable } from "../fields/tasks.ts";
import { FormField } from "../fields/formfield.tsx";
import { Remarks } from "../parts/remarks/remarks.tsx";
import { KIND_LETTERS } from "../words.ts";
import { Pins } from "./pins.tsx";
import { OnBench, Standing, TaskFindings } from "./standing.tsx";

type FieldKey = keyof typeof TASK_FIELDS;

/** The fields that are edited here, by the groups they stand in; all others are in setup. */
const GROUPS: readonly { readonly name: string; readonly fields: readonly FieldKey[] }[] = [
  { name: "Request", fields: ["name", "kind", "must", "worth"] },
  { name: "Duration", fields: ["likely", "low", "high"] },
  { name: "Where and who", fields: ["place", "endPlace", "count", "named", "effort"] },
  { name: "When", fields: ["windows", "petFrom", "petTo", "sun", "light", "sunAngle", "relay"] },
  { name: "With", fields: ["equipment", "massOut", "instrument", "container", "sampleMass"] },
  { name: "Cuff checklist", fields: ["cautions", "steps", "notes"] },
];

const KEYS = Object.keys(TASK_FIELDS) as FieldKey[];

/** The details of the selected task: where it stands, what is found about it, and its fields. Nothing when none is selected. */
export function TaskPanel() {
  const id = useSession((state) => state.selection[0] ?? null);
  const task = useSession((state) => (id === null ? null : (shownTasks(state).get(id) ?? null)));
  return task ? <Details key={task.id} task={task} /> : null;
}

function Details({ task }: { readonly task: Task }) {
  const { session, view } = useApp();
  const plan = useSession((state) => state.plan);
  const selection = useSession((state) => state.selection);
  const placement = useSession((state) => placementsByTask(state).get(task.id) ?? null);
  const reason = useSession((state) => state.benchReasons.get(task.id) ?? null);
  const onLine = selection.some((one) => plan.schedule.placements.some((placed) => placed.task === one));

  const doers = doersOf(plan, task);
  const groups = plan.groups.filter(({ tasks }) => tasks.includes(task.id)).map(groupWords);
  const stepWords = task.steps.map((step) =>
    [...gravestFirst(step.cautions).map(cautionLine), stepLine(step, doers)].join(" "),
  );

  return (
    <section className="task" aria-label={`Task ${task.name}`}>
      <header className="part-head">
        <span className={`kind ${task.kind}`} aria-hidden="true">
          {KIND_LETTERS[task.kind]}
        </span>
        <span className="task-number" title="Number of the task">
          {taskNumber(plan, task.id)}
        </span>
        <h2 title={task.name}>{task.name}</h2>
        {selection.length > 1 && (
          <span className="note">and {counted(selection.length - 1, "more", "more")}</span>
        )}
        <button
          type="button"
          className="quiet cross"
          aria-label="Close details"
          onClick={() => view.setState({ details: false })}
        >
          ×
        </button>
        {onLine && (
          <button type="button" onClick={() => session.bench(selection)}>
            Send to bench
          </button>
        )}
      </header>
      <div className="task-body">
        <div className="task-now">
          {placement ? (
            <Standing plan={plan} task={task} placement={placement} />
          ) : (
            <OnBench task={task} reason={reason} />
          )}
          <Pins task={task} placement={placement} />
          <TaskFindings task={task} />
          <Links plan={plan} task={task.id} />
          <Words title="Groups" words={groups} />
          <Words title="Cautions" words={gravestFirst(task.cautions).map(cautionLine)} />
          <Words title="Steps" words={stepWords} numbered />
          <Remarks about={{ kind: "task", id: task.id }} name={task.name} />
        </div>
        <Fields plan={plan} task={task} />
      </div>
    </section>
  );
}

const Fields = memo(function Fields({ plan, task }: { readonly plan: Plan; readonly task: Task }) {
  const { view } = useApp();
  const line = useMemo(() => taskTable.line(plan, task.id), [plan, task.id]);
  const ref = useRef<HTMLDivElement>(null);
  const at = useView((state) => state.detailsAt);
  useEffect(() => {
    if (at === null) return;
    view.setState({ detailsAt: null });
    const field = ref.current?.querySelector<HTMLButtonElement>(`[data-key="${at}"] .task-value`);
    field?.scrollIntoView({ block: "nearest" });
    field?.click();
  }, [at, view]);
  if (!line) return null;
  return (
    <div ref={ref} className="task-fields">
      {GROUPS.map(({ name, fields }) => (
        <section key={name} aria-label={name}>
          <h3>{name}</h3>
          {fields.map((key) => {
            const cell = line.cells[KEYS.indexOf(key)];
            return (
              cell && (
                <div key={key} data-key={key}>
                  <FormField table={taskTable} row={task.id} cell={cell} label={TASK_FIELDS[key].label} />
                </div>
              )
            );
          })}
        </section>
      ))}
    </div>
  );
});

function Links({ plan, task }: { readonly plan: Plan; readonly task: string }) {
  const links = useMemo(() => plan.links.filter((link) => tasksOf(link).includes(task)), [plan, task]);
  if (links.length === 0) return null;
  return (
    <section className="task-words" aria-label="Links">
      <h3>Links</h3>
      <ul>
        {links.map((link) => (
          <li key={link.id}>{numberedLink(plan, link)}</li>
        ))}
      </ul>
    </section>
  );
}

function tasksOf(link: Link): readonly string[] {
  return link.type === "lag" ? [link.from.task, link.to.task] : link.tasks;
}

function Words(props: {
  readonly title: string;
  readonly words: readonly string[];
  readonly numbered?: boolean;
}) {
  const { title, words, numbered = false } = props;
  if (words.length === 0) return null;
  const List = numbered ? "ol" : "ul";
  return (
    <section className="task-words" data-title={title} aria-label={title}>
      <h3>{title}</h3>
      <List>
        {words.map((one, index) => (
          <li key={index}>{one}</li>
        ))}
      </List>
    </section>
  );
}

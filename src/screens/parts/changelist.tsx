import type { Plan } from "../../plan/index.ts";
import { counted, grouped, numberedSentence, type WordedChange, taskNumber } from "../../words/index.ts";

/** What a new schedule changes, and the plan by which its tasks are numbered. */
interface Changed {
  readonly plan: Pick<Plan, "tasks">;
  readonly changes: readonly WordedChange[];
}

/** What a new schedule drops: must-do tasks first and as a breach, then the others; counted, and every one named. */
export function Dropped({ plan, changes }: Changed) {
  const { must, others } = droppedIn(changes);
  const worth = others.reduce((sum, one) => sum + one.worth, 0);
  return (
    <div className="changes-dropped">
      {must.length > 0 && (
        <p className="state breach">
          <b>{counted(must.length, "must-do task")} dropped:</b> {names(plan, must)}.
        </p>
      )}
      {others.length > 0 && (
        <p className="state tight">
          <b>
            {counted(others.length, "optional task")} dropped, worth {grouped(worth)}:
          </b>{" "}
          {names(plan, others)}.
        </p>
      )}
      {must.length + others.length === 0 && <p className="state fine">No task is dropped.</p>}
    </div>
  );
}

/** What else a new schedule changes, task by task, all of it. */
export function Moved({ plan, changes }: Changed) {
  const rest = changes.filter((one) => one.kind !== "dropped");
  if (rest.length === 0) return null;
  const other = rest.length < changes.length ? "other " : "";
  return (
    <>
      <h4>{counted(rest.length, `${other}task changes`, `${other}tasks change`)}</h4>
      <ul className="mended-tasks">
        {rest.map((one) => (
          <li key={one.task}>{numberedSentence(plan, one.sentence, [one.task])}</li>
        ))}
      </ul>
    </>
  );
}

/** `2 must-do tasks dropped: 3 A, 5 B.`, for who hears it. */
export function droppedWords({ plan, changes }: Changed): string {
  const { must, others } = droppedIn(changes);
  const dropped = (list: readonly WordedChange[], what: string): string[] =>
    list.length === 0 ? [] : [`${counted(list.length, what)} dropped: ${names(plan, list)}.`];
  const words = [...dropped(must, "must-do task"), ...dropped(others, "optional task")];
  return words.length > 0 ? words.join(" ") : "No task is dropped.";
}

function droppedIn(changes: readonly WordedChange[]) {
  const dropped = changes.filter((one) => one.kind === "dropped");
  return { must: dropped.filter((one) => one.must), others: dropped.filter((one) => !one.must) };
}

function names(plan: Changed["plan"], changes: readonly WordedChange[]): string {
  return changes.map((one) => `${taskNumber(plan, one.task)} ${one.name}`).join(", ");
}

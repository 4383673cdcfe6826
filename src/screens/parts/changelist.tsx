import type { Change } from "../../answers/index.ts";
import { counted } from "../../words/index.ts";

/** What a new schedule drops: must-do tasks first and as a breach, then the others; counted, and every one named. */
export function Dropped({ changes }: { readonly changes: readonly Change[] }) {
  const { must, others } = droppedIn(changes);
  const worth = others.reduce((sum, one) => sum + one.worth, 0);
  return (
    <div className="dropped">
      {must.length > 0 && (
        <p className="state breach">
          <b>{counted(must.length, "must-do task")} dropped:</b> {names(must)}.
        </p>
      )}
      {others.length > 0 && (
        <p className="state tight">
          <b>
            {counted(others.length, "optional task")} dropped, worth {worth}:
          </b>{" "}
          {names(others)}.
        </p>
      )}
      {must.length + others.length === 0 && <p className="state fine">No task is dropped.</p>}
    </div>
  );
}

/** What else a new schedule changes, task by task, all of it. */
export function Moved({ changes }: { readonly changes: readonly Change[] }) {
  const rest = changes.filter((one) => one.kind !== "dropped");
  if (rest.length === 0) return null;
  return (
    <>
      <h4>{counted(rest.length, "other task changes", "other tasks change")}</h4>
      <ul className="mended-tasks">
        {rest.map((one) => (
          <li key={one.task}>{one.sentence}</li>
        ))}
      </ul>
    </>
  );
}

/** `2 must-do tasks dropped: A, B.`, for who hears it. */
export function droppedWords(changes: readonly Change[]): string {
  const { must, others } = droppedIn(changes);
  const said = (list: readonly Change[], what: string): string[] =>
    list.length === 0 ? [] : [`${counted(list.length, what)} dropped: ${names(list)}.`];
  const words = [...said(must, "must-do task"), ...said(others, "optional task")];
  return words.length > 0 ? words.join(" ") : "No task is dropped.";
}

function droppedIn(changes: readonly Change[]) {
  const dropped = changes.filter((one) => one.kind === "dropped");
  return { must: dropped.filter((one) => one.must), others: dropped.filter((one) => !one.must) };
}

function names(changes: readonly Change[]): string {
  return changes.map((one) => one.name).join(", ");
}

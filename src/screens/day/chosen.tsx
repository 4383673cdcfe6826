import { useEffect, useRef } from "react";
import { shownPlan } from "../../session/index.ts";
import { counted, lasting, numberedTask, taskNumber } from "../../words/index.ts";
import { useApp, useSession, useView } from "../context.ts";

/**
 * What can be done with the selection and the way to its fields, at the foot of the day where nothing has to make room for it: a
 * row that pushed the bench down put another task under the pointer. Nothing when nothing is selected or something is in hand.
 */
export function Chosen() {
  const { view } = useApp();
  const selection = useSession((state) => state.selection);
  const plan = useSession(shownPlan);
  const isInHand = useView((state) => state.inHand !== null);
  const shown = useView((state) => state.menu !== null);
  const details = useView((state) => state.details);
  const button = useKeyboardBack(details);
  const chosen = plan.tasks.filter((task) => selection.includes(task.id));
  const [first] = chosen;
  if (!first || isInHand) return null;
  const workS = chosen.reduce((sum, task) => sum + task.duration.likelyS, 0);
  const worth = chosen.reduce((sum, task) => sum + task.worth, 0);
  // One is named by the readout beside it, as long as nothing else is pointed at.
  const [words, title] =
    chosen.length === 1
      ? [`Selected: ${taskNumber(plan, first.id)}`, numberedTask(plan, first.id)]
      : [`${counted(chosen.length, "task")}, ${lasting(workS, "up")} of work, worth ${worth}`, undefined];
  return (
    <div className="chosen">
      <b title={title}>{words}</b>
      <button
        type="button"
        aria-haspopup="menu"
        aria-expanded={shown}
        aria-label="What can be done with the selection"
        onClick={(event) => {
          const box = event.currentTarget.getBoundingClientRect();
          view.setState({ menu: { x: box.left, y: box.bottom + 4 } });
        }}
      >
        Actions <span className="opens-down" aria-hidden="true" />
      </button>
      <button
        ref={button}
        type="button"
        aria-pressed={details}
        onClick={() => view.setState(details ? { details: false } : { details: true, sideOpen: true })}
      >
        Details
      </button>
    </div>
  );
}

/** Gives the keyboard its place back when the details close under it. */
function useKeyboardBack(details: boolean) {
  const ref = useRef<HTMLButtonElement>(null);
  const were = useRef(details);
  useEffect(() => {
    if (were.current && !details && document.activeElement === document.body) ref.current?.focus();
    were.current = details;
  }, [details]);
  return ref;
}

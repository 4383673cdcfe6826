import { shownPlan } from "../../session/index.ts";
import { counted, lasting, numberedTask } from "../../words/index.ts";
import { useApp, useSession, useView } from "../context.ts";

/** The selection in words, with what can be done with it and the way to its fields. Nothing when nothing is selected. */
export function Chosen() {
  const { view } = useApp();
  const selection = useSession((state) => state.selection);
  const plan = useSession(shownPlan);
  const shown = useView((state) => state.menu !== null);
  const chosen = plan.tasks.filter((task) => selection.includes(task.id));
  const [first] = chosen;
  if (!first) return null;
  const workS = chosen.reduce((sum, task) => sum + task.duration.likelyS, 0);
  const worth = chosen.reduce((sum, task) => sum + task.worth, 0);
  const words =
    chosen.length === 1
      ? numberedTask(plan, first.id)
      : `${counted(chosen.length, "task")}, ${lasting(workS, "up")} of work, worth ${worth}`;
  return (
    <div className="chosen">
      <b className="narrow" title={words}>
        {words}
      </b>
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
      <button type="button" onClick={() => view.setState({ details: true })}>
        Details
      </button>
    </div>
  );
}

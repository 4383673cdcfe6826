import { memo } from "react";
import { MANNER_WORDS, type Manner } from "../../editor/index.ts";
import { shownPlan } from "../../session/index.ts";
import { counted, lasting } from "../../words/index.ts";
import { useAround, useDesk, useLook } from "../context.ts";
import type { LookState } from "../look.ts";
import { useBefore } from "../margins/before.ts";
import { useDay } from "./around.ts";
import { Signs } from "./legend.tsx";

const CLOCKS = [
  { id: "met", name: "MET", says: "Mission elapsed time, since touchdown" },
  { id: "pet", name: "PET", says: "Phase elapsed time, since egress of the EVA" },
  { id: "utc", name: "UTC", says: "Universal time" },
] as const;

const TOOLS = [
  { id: "pan", name: "Pan", says: "Dragging the empty ground pans" },
  { id: "lasso", name: "Lasso", says: "Dragging the empty ground selects; with Shift it always does" },
] as const;

/** What the hand does, what is selected, which clock is read and how much of the stay is shown. */
export const HandBar = memo(function HandBar() {
  const { look } = useAround();
  const { windows } = useDay();
  const set = (part: Partial<LookState>): void => look.setState(part);
  const manner = useLook((state) => state.inHand?.manner ?? state.manner);
  const tool = useLook((state) => state.tool);
  const clock = useLook((state) => state.clock);
  const evas = useDesk((state) => state.plan.evas);
  return (
    <div className="handbar" role="toolbar" aria-label="Hand and view">
      <Choice
        label="What others do"
        chosen={manner}
        options={(["stay", "slide"] as const).map((id: Manner) => ({
          id,
          name: MANNER_WORDS[id],
          says: id === "stay" ? "What is moved moves alone" : "What is moved pushes what follows, order kept",
        }))}
        onChoose={(next) => set({ manner: next })}
      />
      <Choice label="Empty ground" chosen={tool} options={TOOLS} onChoose={(next) => set({ tool: next })} />
      <Chosen />
      <Choice label="Clock" chosen={clock} options={CLOCKS} onChoose={(next) => set({ clock: next })} />
      <div className="pair" role="group" aria-label="Shown part">
        <button type="button" title="Whole stay (0)" onClick={() => windows.whole()}>
          Stay
        </button>
        {evas.slice(0, 6).map((eva, i) => (
          <button key={eva.id} type="button" title={`${eva.name} (${i + 1})`} onClick={() => windows.eva(i)}>
            {evas.length > 3 ? i + 1 : eva.name}
          </button>
        ))}
      </div>
      <Signs />
      <button type="button" title="Every command (Ctrl+K)" onClick={() => set({ listShown: true })}>
        Commands
      </button>
      <span className="unseen" aria-live="polite">
        {MANNER_WORDS[manner]}
      </span>
    </div>
  );
});

/** The selection in words, with the button that lists what can be done with it. */
function Chosen() {
  const { look } = useAround();
  const selection = useDesk((state) => state.selection);
  const tasks = useDesk((state) => shownPlan(state).tasks);
  const chosen = tasks.filter((task) => selection.includes(task.id));
  const before = useBefore();
  const workS = chosen.reduce((sum, task) => sum + task.duration.likelyS, 0);
  const worth = chosen.reduce((sum, task) => sum + task.worth, 0);
  const words =
    chosen.length === 0
      ? "Nothing selected"
      : chosen.length === 1
        ? chosen[0]!.name
        : `${counted(chosen.length, "task")}, ${lasting(workS, "up")} of work, worth ${worth}`;
  return (
    <div className="chosen">
      <span className={chosen.length === 0 ? "note" : "narrow"}>{words}</span>
      {before && <span className="note">dashed: before the move</span>}
      {chosen.length > 0 && (
        <button
          type="button"
          className="quiet"
          aria-haspopup="menu"
          aria-label="What can be done with the selection"
          onClick={(event) => {
            const box = event.currentTarget.getBoundingClientRect();
            look.setState({ menu: { x: box.left, y: box.bottom + 4 } });
          }}
        >
          Do…
        </button>
      )}
    </div>
  );
}

function Choice<Id extends string>(props: {
  readonly label: string;
  readonly chosen: Id;
  readonly options: readonly { readonly id: Id; readonly name: string; readonly says: string }[];
  readonly onChoose: (id: Id) => void;
}) {
  return (
    <div className="pair" role="group" aria-label={props.label}>
      {props.options.map(({ id, name, says }) => (
        <button
          key={id}
          type="button"
          title={says}
          aria-pressed={id === props.chosen}
          onClick={() => props.onChoose(id)}
        >
          {name}
        </button>
      ))}
    </div>
  );
}

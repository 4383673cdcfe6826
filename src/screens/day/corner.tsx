import { memo } from "react";
import { MANNER_WORDS, type Manner } from "../../editor/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import type { ViewState } from "../viewstate.ts";
import { Menu } from "../parts/menu.tsx";
import { useDay } from "./context.ts";
import { useWide } from "./mapbeside.ts";
import { evaSpan } from "./windowing.ts";

const CLOCKS = [
  { id: "met", name: "MET", says: "Mission elapsed time, since touchdown" },
  { id: "pet", name: "PET", says: "Phase elapsed time, since egress of the EVA" },
  { id: "utc", name: "UTC", says: "Universal time" },
] as const;

const TOOLS = [
  { id: "pan", name: "Pan", says: "Dragging the empty ground pans" },
  { id: "lasso", name: "Select", says: "Dragging the empty ground selects; with Shift it always does" },
] as const;

const MANNERS = (["stay", "slide"] as const).map((id: Manner) => ({
  id,
  name: MANNER_WORDS[id],
  says: id === "stay" ? "What is moved moves alone" : "What is moved pushes what follows, order kept",
}));

/** In the corner of the ruler: which part of the stay is shown, and how the line is read and worked on. */
export const Corner = memo(function Corner() {
  return (
    <div className="corner" role="toolbar" aria-label="Hand and view">
      <Part />
      <Manners />
    </div>
  );
});

/** The part of the stay that is shown, by its EVA where it is about one. */
function Part() {
  const { windows } = useDay();
  const { session } = useApp();
  const evas = useSession((state) => state.plan.evas);
  const verdict = useSession((state) => state.verdict);
  const plan = useSession((state) => state.plan);
  const window = useView((state) => state.window);
  const chosen = useSession((state) => state.selection.length > 0);
  const middleS = (window.startS + window.endS) / 2;
  const spans = evas.map((_, i) => evaSpan(plan, verdict, i));
  const whole =
    spans.length > 1 && spans.every((one) => one && one.startS >= window.startS && one.endS <= window.endS);
  const at = whole ? -1 : spans.findIndex((one) => one && one.startS <= middleS && middleS <= one.endS);
  return (
    <Menu
      name={<span className="corner-name">{at < 0 ? "Stay" : evas[at]?.name}</span>}
      label="Shown part"
      title="Which part of the stay is shown"
    >
      <button type="button" className="quiet" aria-pressed={at < 0} onClick={() => windows.whole()}>
        Stay <kbd>0</kbd>
      </button>
      {evas.map((eva, i) => (
        <button
          key={eva.id}
          type="button"
          className="quiet"
          aria-pressed={i === at}
          onClick={() => windows.eva(i)}
        >
          <span>{eva.name}</span> {i < 9 && <kbd>{i + 1}</kbd>}
        </button>
      ))}
      <hr />
      {chosen && (
        <button type="button" className="quiet" onClick={() => void session.commands.run("zoom selection")}>
          Zoom to the selection <kbd>Z</kbd>
        </button>
      )}
      <button
        type="button"
        className="quiet"
        onClick={() => void session.commands.run("minute a centimetre")}
      >
        A minute a centimetre <kbd>M</kbd>
      </button>
    </Menu>
  );
}

/** The clock that is read, what others do, what dragging the ground does, and what the signs mean. */
function Manners() {
  const { view } = useApp();
  const set = (part: Partial<ViewState>): void => view.setState(part);
  const manner = useView((state) => state.inHand?.manner ?? state.manner);
  const tool = useView((state) => state.tool);
  const clock = useView((state) => state.clock);
  const wide = useWide();
  const away = useView((state) => state.mapAway);
  return (
    <>
      <Menu name={clock.toUpperCase()} label="Clock and hand" title="Clock, hand, legend" atEnd>
        <Choice label="Clock" chosen={clock} options={CLOCKS} onChoose={(next) => set({ clock: next })} />
        <Choice
          label="What others do"
          chosen={manner}
          options={MANNERS}
          onChoose={(next) => set({ manner: next })}
        />
        <Choice label="Empty ground" chosen={tool} options={TOOLS} onChoose={(next) => set({ tool: next })} />
        <hr />
        {wide && (
          <button
            type="button"
            className="quiet"
            aria-pressed={!away}
            onClick={() => set({ mapAway: !away })}
          >
            Map beside the lanes
          </button>
        )}
        <button type="button" className="quiet" onClick={() => set({ keysShown: true })}>
          Legend and keys <kbd>?</kbd>
        </button>
      </Menu>
      <span className="unseen" aria-live="polite">
        {MANNER_WORDS[manner]}
      </span>
    </>
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

import { blockBeside, type Direction, REMOTE } from "../../editor/index.ts";
import type { Session } from "../../session/index.ts";
import type { ViewStore } from "../viewstate.ts";
import type { DayLayout } from "./line/geometry.ts";
import type { Windowing } from "./windowing.ts";

/** What the keyboard's place on the line moves over. */
export interface KeyGround {
  readonly session: Session;
  readonly view: ViewStore;
  readonly windows: Windowing;
  /** What stands on the line; null before it is laid out. */
  readonly layout: () => DayLayout | null;
}

/** Goes to the block beside the keyboard's place and selects it; `more` adds it to what is selected. */
export function walk({ session, view, windows, layout }: KeyGround, way: Direction, more: boolean): void {
  const { blocks, lanes } = layout() ?? NOTHING;
  const from = view.getState().focus ?? blocks[0];
  const next = from ? blockBeside(blocks, lanes, from, way) : null;
  if (!next) return;
  // The minute goes along; it is the pointer's again when that moves.
  view.setState({ focus: { task: next.task, lane: next.lane }, cursorS: null, minuteS: next.startS });
  const { selection } = session.state.getState();
  session.select(more ? [...new Set([...selection, ...(from ? [from.task] : []), next.task])] : [next.task]);
  windows.reveal(next);
}

/** The keyboard's place goes to a neighbour before its block leaves the line. */
export function stepAside({ session, view, layout }: KeyGround): void {
  const { blocks, lanes } = layout() ?? NOTHING;
  const { selection, plan } = session.state.getState();
  const { focus } = view.getState();
  const task = focus?.task ?? selection[0];
  if (task === undefined || !selection.includes(task)) return;
  const placement = plan.schedule.placements.find((one) => one.task === task);
  const from = { task, lane: focus?.lane ?? placement?.crew[0] ?? REMOTE };
  const staying = blocks.filter((one) => one.task === task || !selection.includes(one.task));
  const next = blockBeside(staying, lanes, from, "later") ?? blockBeside(staying, lanes, from, "earlier");
  view.setState({ focus: next ? { task: next.task, lane: next.lane } : null });
}

/** The keyboard's place follows its task to another lane. */
export function followHands({ session, view }: KeyGround): void {
  const { focus } = view.getState();
  const placement = session.state.getState().plan.schedule.placements.find((one) => one.task === focus?.task);
  const [first] = placement?.crew ?? [];
  if (focus && placement && first !== undefined && !placement.crew.includes(focus.lane)) {
    view.setState({ focus: { task: focus.task, lane: first } });
  }
}

const NOTHING: Pick<DayLayout, "blocks" | "lanes"> = { blocks: [], lanes: [] };

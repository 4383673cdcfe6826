import { type PointerEvent as ReactPointerEvent, useEffect, useRef } from "react";
import { type Block, type Edge, edgeUnder, type Grip, hit, type TimeScale } from "../../../editor/index.ts";
import { useApp } from "../../context.ts";
import { useDay } from "../context.ts";
import { type DayLayout, shows, slabFor } from "./geometry.ts";
import { useLasso } from "./lasso.tsx";
import { usePanning } from "./panning.ts";
import { GRIP_PX, REST_MS, SLACK_PX } from "./sizes.ts";
import type { LineOnPage } from "./theline.ts";

interface Lanes {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
}

/** What pointers do on the lanes: take tasks, pan or lasso the ground, say where they are, open the menu. */
export function useLinePointer(line: Lanes & { readonly onPage: LineOnPage }) {
  const { scale, onPage } = line;
  const { session, view } = useApp();
  const { gesture, windows } = useDay();
  const { press: pan, pinching } = usePanning(onPage.stage, scale, windows);
  const lasso = useLasso(onPage.latest);
  const menu = useTaskMenu(line);
  const rest = useFingerRest();

  return {
    onPointerDown(event: ReactPointerEvent<HTMLElement>): void {
      if (event.button !== 0) return;
      const box = event.currentTarget.getBoundingClientRect();
      const [x, y] = [event.clientX - box.left, event.clientY - box.top];
      const more = event.shiftKey || event.ctrlKey || event.metaKey;
      const found = under(line, x, y, SLACK_PX[event.pointerType] ?? 0);
      if (found && !pinching()) {
        const { clientX, clientY, pointerType } = event;
        gesture.press(event.nativeEvent, gripOn(found, scale.at(x), pointerType, more));
        if (pointerType === "touch") rest.begin(() => menu(found.block.task, clientX, clientY));
      } else if (event.shiftKey || view.getState().tool === "lasso")
        lasso.press(event.nativeEvent, box, more);
      else {
        pan(event.nativeEvent);
        if (event.pointerType === "mouse") session.select([]);
      }
    },
    onPointerMove(event: ReactPointerEvent<HTMLElement>): void {
      if (gesture.active()) {
        rest.end();
        return;
      }
      const box = event.currentTarget.getBoundingClientRect();
      const x = event.clientX - box.left;
      view.setState({ cursorS: scale.at(x) });
      if (event.pointerType === "mouse")
        showEdge(event.currentTarget, under(line, x, event.clientY - box.top, 0)?.edge ?? null);
    },
    onPointerUp: () => rest.end(),
    onPointerLeave: () => view.setState({ cursorS: null }),
    onContextMenu(event: React.MouseEvent<HTMLElement>): void {
      event.preventDefault();
      const box = event.currentTarget.getBoundingClientRect();
      const found = under(line, event.clientX - box.left, event.clientY - box.top, 0);
      if (found) menu(found.block.task, event.clientX, event.clientY);
    },
  };
}

interface Found {
  readonly block: Block;
  /** The end of it that a pointer would take there. */
  readonly edge: Edge | null;
}

/** The block under a point of the lanes. */
function under({ layout, scale }: Lanes, x: number, y: number, slack: number): Found | null {
  const shown = layout.blocks.filter((block) => shows(scale, block));
  const block = hit(shown, (one) => slabFor(layout, scale, one)!, x, y, slack);
  return block ? { block, edge: edgeUnder(slabFor(layout, scale, block)!, x, GRIP_PX) } : null;
}

function gripOn({ block, edge }: Found, atS: number, pointerType: string, more: boolean): Grip {
  // A finger is as wide as an end: it moves tasks; their length is in the panel and the menu.
  const end = pointerType === "touch" ? null : edge;
  const fromS = end === "end" ? block.endS : block.startS;
  const grip = { task: block.task, lane: block.lane, offsetS: atS - fromS, more };
  return end === null ? grip : { ...grip, edge: end };
}

/** Tells the style sheet which end of a block is under the pointer. */
function showEdge({ dataset }: HTMLElement, edge: Edge | null): void {
  // Set anew it would be styled anew, in every move.
  if ((dataset["edge"] ?? "") !== (edge ?? "")) dataset["edge"] = edge ?? "";
}

/** Opens the menu of a task at a point of the page, unless something is in hand. */
function useTaskMenu({ scale, onPage }: { readonly scale: TimeScale; readonly onPage: LineOnPage }) {
  const { session, view } = useApp();
  const { gesture } = useDay();
  return (task: string, x: number, y: number): void => {
    if (gesture.active()) return;
    gesture.forget();
    if (!session.state.getState().selection.includes(task)) session.select([task]);
    const box = onPage.stage.current?.getBoundingClientRect();
    view.setState({ menu: { x, y, ...(box ? { atS: scale.at(x - box.left) } : {}) } });
  };
}

/** Calls what was begun once a finger has rested long enough, unless it ends before. */
function useFingerRest(): { begin(rested: () => void): void; end(): void } {
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const rest = useRef({
    begin: (rested: () => void): void => void (timer.current = setTimeout(rested, REST_MS)),
    end: (): void => clearTimeout(timer.current),
  }).current;
  useEffect(() => rest.end, [rest]);
  return rest;
}

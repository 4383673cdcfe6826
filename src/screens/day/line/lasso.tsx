import { useEffect, useMemo } from "react";
import { useApp, useView } from "../../context.ts";
import { type Lasso, lassoed } from "../../../editor/index.ts";
import type { Session } from "../../../session/index.ts";
import type { ViewStore } from "../../viewstate.ts";
import { shows, slabFor } from "./geometry.ts";
import type { LineOnPage } from "./theline.ts";

/** Draws a lasso over the empty ground: what it touches is selected while it is drawn, Escape gives it up. */
export interface Lassoing {
  /** A pointer went down on the ground; `more` adds to the selection. Coordinates are those of the lanes. */
  press(event: PointerEvent, box: DOMRect, more: boolean): void;
}

/** All that a lasso listens to. */
interface LassoHand extends Lassoing {
  move(event: PointerEvent): void;
  lift(event: PointerEvent): void;
  escape(event: KeyboardEvent): void;
}

export function useLasso(latest: LineOnPage["latest"]): Lassoing {
  const { session, view } = useApp();
  const hand = useMemo(() => lassoHand(session, view, latest), [session, view, latest]);
  useEffect(() => {
    const listening = new AbortController();
    const { signal } = listening;
    window.addEventListener("pointermove", hand.move, { signal });
    window.addEventListener("pointerup", hand.lift, { signal });
    window.addEventListener("pointercancel", hand.lift, { signal });
    window.addEventListener("keydown", hand.escape, { capture: true, signal });
    return () => listening.abort();
  }, [hand]);
  return hand;
}

function lassoHand(session: Session, view: ViewStore, latest: LineOnPage["latest"]): LassoHand {
  let pointer: number | null = null;
  let origin = { left: 0, top: 0 };
  let before: readonly string[] = [];
  let more = false;
  const end = (): void => {
    pointer = null;
    view.setState({ lasso: null });
  };
  return {
    press(event, box, adds) {
      pointer = event.pointerId;
      origin = { left: box.left, top: box.top };
      before = session.state.getState().selection;
      more = adds;
      const at = { x: event.clientX - box.left, y: event.clientY - box.top };
      view.setState({ lasso: { from: at, to: at } });
    },
    move(event) {
      const { lasso } = view.getState();
      if (event.pointerId !== pointer || !lasso) return;
      const next = {
        from: lasso.from,
        to: { x: event.clientX - origin.left, y: event.clientY - origin.top },
      };
      view.setState({ lasso: next });
      session.select([...new Set([...(more ? before : []), ...touchedBy(next, latest.current)])]);
    },
    lift(event) {
      if (event.pointerId !== pointer) return;
      const count = session.state.getState().selection.length;
      end();
      view.setState({ spoken: `${count} selected.` });
    },
    escape(event) {
      if (pointer === null || event.key !== "Escape") return;
      session.select(before);
      end();
      event.preventDefault();
      event.stopPropagation();
    },
  };
}

/** The tasks that a lasso touches. */
function touchedBy(lasso: Lasso, laid: LineOnPage["latest"]["current"]): readonly string[] {
  if (!laid) return [];
  const { layout, scale } = laid;
  const shown = layout.blocks.filter((block) => shows(scale, block));
  return lassoed(shown, (block) => slabFor(layout, scale, block), lasso).map((one) => one.task);
}

/** The box of the lasso. */
export function LassoBox() {
  const lasso = useView((state) => state.lasso);
  if (!lasso) return null;
  const { from, to } = lasso;
  return (
    <div
      className="lasso"
      style={{
        left: Math.min(from.x, to.x),
        top: Math.min(from.y, to.y),
        width: Math.abs(to.x - from.x),
        height: Math.abs(to.y - from.y),
      }}
      aria-hidden="true"
    />
  );
}

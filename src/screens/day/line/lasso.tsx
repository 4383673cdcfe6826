import { useEffect, useMemo } from "react";
import { useAround, useLook } from "../../context.ts";
import { lassoed } from "../../../editor/index.ts";
import { shows, slabFor, type DayLayout } from "./geometry.ts";
import type { TimeScale } from "../../../editor/index.ts";

/** Draws a lasso over the empty ground: what it touches is selected while it is drawn, Escape gives it up. */
export interface Lassoing {
  /** A pointer went down on the ground; `more` adds to the selection. Coordinates are those of the lanes. */
  press(event: PointerEvent, box: DOMRect, more: boolean): void;
}

export function useLasso(latest: { readonly current: { standing: DayLayout; scale: TimeScale } }): Lassoing {
  const { desk, look } = useAround();
  const hand = useMemo(() => {
    let pointer: number | null = null;
    let origin = { left: 0, top: 0 };
    let before: readonly string[] = [];
    let more = false;
    const end = (): void => {
      pointer = null;
      look.setState({ lasso: null });
    };
    return {
      press(event: PointerEvent, box: DOMRect, adds: boolean): void {
        pointer = event.pointerId;
        origin = { left: box.left, top: box.top };
        before = desk.state.getState().selection;
        more = adds;
        const at = { x: event.clientX - box.left, y: event.clientY - box.top };
        look.setState({ lasso: { from: at, to: at } });
      },
      move(event: PointerEvent): void {
        const { lasso } = look.getState();
        if (event.pointerId !== pointer || !lasso) return;
        const next = {
          from: lasso.from,
          to: { x: event.clientX - origin.left, y: event.clientY - origin.top },
        };
        look.setState({ lasso: next });
        const { standing, scale } = latest.current;
        const shown = standing.blocks.filter((block) => shows(scale, block));
        const touched = lassoed(shown, (block) => slabFor(standing, scale, block), next).map(
          (one) => one.task,
        );
        desk.select([...new Set([...(more ? before : []), ...touched])]);
      },
      lift(event: PointerEvent): void {
        if (event.pointerId !== pointer) return;
        const count = desk.state.getState().selection.length;
        end();
        look.setState({ spoken: `${count} selected.` });
      },
      escape(event: KeyboardEvent): void {
        if (pointer === null || event.key !== "Escape") return;
        desk.select(before);
        end();
        event.preventDefault();
        event.stopPropagation();
      },
    };
  }, [desk, look, latest]);

  useEffect(() => {
    window.addEventListener("pointermove", hand.move);
    window.addEventListener("pointerup", hand.lift);
    window.addEventListener("pointercancel", hand.lift);
    window.addEventListener("keydown", hand.escape, true);
    return () => {
      window.removeEventListener("pointermove", hand.move);
      window.removeEventListener("pointerup", hand.lift);
      window.removeEventListener("pointercancel", hand.lift);
      window.removeEventListener("keydown", hand.escape, true);
    };
  }, [hand]);
  return hand;
}

/** The box of the lasso. */
export function LassoBox() {
  const lasso = useLook((state) => state.lasso);
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

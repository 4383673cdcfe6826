import { type PointerEvent as ReactPointerEvent, type ReactNode, useRef } from "react";
import { useAround, useLook } from "../context.ts";

const LEAST = 96;
const STEP = 24;

/** The lower part of the desk; its upper edge is dragged, or moved by arrow keys. */
export function Dock(props: { readonly children: ReactNode }) {
  const { look } = useAround();
  const heightPx = useLook((state) => state.dockPx);
  const grip = useRef<{ y: number; from: number } | null>(null);
  const most = Math.round(window.innerHeight * 0.6);
  const set = (px: number): void => look.setState({ dockPx: Math.max(LEAST, Math.min(most, px)) });
  const press = (event: ReactPointerEvent<HTMLDivElement>): void => {
    event.currentTarget.setPointerCapture(event.pointerId);
    grip.current = { y: event.clientY, from: heightPx };
  };
  return (
    <div className="dock" style={{ height: heightPx }}>
      <div
        className="dock-edge"
        role="separator"
        aria-orientation="horizontal"
        aria-label="Height of bench and findings"
        aria-valuemin={LEAST}
        aria-valuemax={most}
        aria-valuenow={heightPx}
        tabIndex={0}
        onPointerDown={press}
        onPointerMove={(event) => {
          if (grip.current) set(grip.current.from + grip.current.y - event.clientY);
        }}
        onPointerUp={() => (grip.current = null)}
        onPointerCancel={() => (grip.current = null)}
        onKeyDown={(event) => {
          if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
          set(heightPx + (event.key === "ArrowUp" ? STEP : -STEP));
          event.preventDefault();
          event.stopPropagation();
        }}
      />
      <div className="dock-parts">{props.children}</div>
    </div>
  );
}

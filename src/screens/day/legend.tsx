import { useRef, useState } from "react";
import { useAway } from "../away.ts";
import { Canvas } from "./line/canvas.tsx";
import { SIGN_PX, SIGNS } from "./signs.ts";

/** What the signs and patterns of the day line mean, each drawn as the line draws it. */
export function Legend() {
  return (
    <div className="legend">
      {SIGNS.map(({ title, signs }) => (
        <div key={title}>
          <b>{title}</b>
          <ul aria-label={title}>
            {signs.map(({ name, paint }) => (
              <li key={name}>
                <Canvas widthPx={SIGN_PX.width} heightPx={SIGN_PX.height} paint={paint} />
                <span>{name}</span>
              </li>
            ))}
          </ul>
        </div>
      ))}
    </div>
  );
}

const PRESSES = ["pointerdown"];

/** The button that opens the legend over the line; Escape or a press elsewhere closes it. */
export function Signs() {
  const [open, setOpen] = useState(false);
  const ref = useRef<HTMLDivElement>(null);
  useAway(ref, open, setOpen, PRESSES);
  return (
    <div
      className="signs"
      ref={ref}
      onKeyDown={(event) => {
        if (event.key !== "Escape" || !open) return;
        setOpen(false);
        event.stopPropagation();
      }}
    >
      <button
        type="button"
        aria-expanded={open}
        title="What the signs and patterns of the line mean"
        onClick={() => setOpen(!open)}
      >
        Legend
      </button>
      {open && (
        <div className="signs-box panel" role="region" aria-label="Legend of the line" tabIndex={0}>
          <Legend />
        </div>
      )}
    </div>
  );
}

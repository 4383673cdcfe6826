import { useEffect, useRef, useState } from "react";
import { Canvas } from "../line/canvas.tsx";
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

/** The button that opens the legend over the line; Escape or a press elsewhere closes it. */
export function Signs() {
  const [open, setOpen] = useState(false);
  const ref = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!open) return;
    const away = (event: Event): void => {
      if (event.target instanceof Node && !ref.current?.contains(event.target)) setOpen(false);
    };
    document.addEventListener("pointerdown", away);
    return () => document.removeEventListener("pointerdown", away);
  }, [open]);
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
        Signs
      </button>
      {open && (
        <div className="signs-box panel" role="region" aria-label="Signs of the line" tabIndex={0}>
          <Legend />
        </div>
      )}
    </div>
  );
}

import { type ReactNode, useCallback, useEffect, useId, useLayoutEffect, useRef, useState } from "react";
import type { FromAnswer, ExplainRequest } from "../../../answers/index.ts";
import type { Explained } from "../../../kernel/index.ts";
import type { GivenDay } from "../../../session/index.ts";
import { Explanation } from "./explanation.tsx";
import { beside } from "./beside.ts";
import { Worked } from "./worked.tsx";
import "./from.css";

/**
 * A button that says from what a figure comes: formula, inputs with units, source, and the lines it is the sum of. With
 * `children` it is the figure itself. What is known beforehand stands in `from`; `known` is worked out, and `request` sent, when it
 * is opened.
 * Escape or a press elsewhere closes it.
 */
export function From(props: {
  readonly of: string;
  readonly from?: readonly Explained[];
  readonly known?: () => FromAnswer;
  readonly request?: ExplainRequest;
  /** The day that is asked; the one on the screen when left out. */
  readonly day?: GivenDay;
  readonly children?: ReactNode;
}) {
  const { of, from, known, request, day, children } = props;
  const id = useId();
  const box = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const [open, setOpen] = useState(false);
  const lay = useLayBeside(open, button, box);
  useOwnEscape(open, box);
  if (!request && !known && (!from || from.length === 0)) return children ?? null;
  const name = `How it is worked out: ${of}`;

  return (
    <>
      <button
        ref={button}
        type="button"
        className={children ? "from-figure" : "from-button"}
        popoverTarget={id}
        {...(children ? { "aria-description": "How it is worked out" } : { "aria-label": name })}
        title="How it is worked out"
        // A figure may change and move between press and release, while the packer is at work: the press stays its own.
        onPointerDown={(event) => event.currentTarget.setPointerCapture?.(event.pointerId)}
      >
        {children ?? "How it is worked out"}
      </button>
      <div
        ref={box}
        id={id}
        popover="auto"
        className={request ? "from panel wide" : "from panel"}
        role="group"
        aria-label={name}
        tabIndex={0}
        onToggle={(event) => setOpen(event.newState === "open")}
      >
        {open && request && <Explanation request={request} day={day} laid={lay} />}
        {open && !request && <Worked answer={known?.() ?? { figures: from ?? [], sums: null }} />}
      </div>
    </>
  );
}

/** Lays the open `box` beside `button`, whole on the page; what comes is called again when its size has changed. */
function useLayBeside(
  open: boolean,
  button: React.RefObject<HTMLElement | null>,
  box: React.RefObject<HTMLElement | null>,
): () => void {
  const lay = useCallback(() => {
    // A figure with its name below it is answered for below its name.
    const about = button.current?.closest(".score-figure") ?? button.current;
    const [at, to] = [about?.getBoundingClientRect(), box.current];
    if (!at || !to) return;
    to.style.left = `${Math.max(8, Math.min(at.left, window.innerWidth - to.offsetWidth - 8))}px`;
    const { top, mostPx } = beside(
      at,
      to.scrollHeight + to.offsetHeight - to.clientHeight,
      window.innerHeight,
    );
    to.style.top = `${top}px`;
    to.style.maxHeight = `${mostPx}px`;
  }, [button, box]);
  useLayoutEffect(() => {
    if (open) lay();
  }, [open, lay]);
  return lay;
}

/** While `box` is open Escape closes it and does nothing else, wherever the keyboard is: not also the packer's stop. */
function useOwnEscape(open: boolean, box: React.RefObject<HTMLDivElement | null>): void {
  useEffect(() => {
    if (!open) return;
    const down = (event: KeyboardEvent): void => {
      if (event.key !== "Escape") return;
      box.current?.hidePopover();
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    window.addEventListener("keydown", down, true);
    return () => window.removeEventListener("keydown", down, true);
  }, [open, box]);
}

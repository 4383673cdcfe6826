import { type ReactNode, useEffect, useRef, useState } from "react";
import { useAway } from "../away.ts";

const LEAVING = ["pointerdown", "focusin"];

/** A button that opens a short list of commands; Escape or a press elsewhere closes it. */
export function Menu(props: { readonly name: string; readonly label: string; readonly children: ReactNode }) {
  const [open, setOpen] = useState(false);
  const ref = useRef<HTMLDivElement>(null);
  useAway(ref, open, setOpen, LEAVING);
  useEffect(() => {
    if (open) ref.current?.querySelector<HTMLElement>(".menu-list button")?.focus();
  }, [open]);

  const keys = (event: React.KeyboardEvent): void => {
    if (!open) return;
    const items = [...(ref.current?.querySelectorAll<HTMLElement>(".menu-list button:not(:disabled)") ?? [])];
    const at = items.findIndex((item) => item === document.activeElement);
    if (event.key === "Escape") {
      setOpen(false);
      ref.current?.querySelector("button")?.focus();
    } else if (event.key === "ArrowDown") items[(at + 1) % items.length]?.focus();
    else if (event.key === "ArrowUp") items[(at - 1 + items.length) % items.length]?.focus();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  /** After the command has run, before what it opens is there: that gives the keyboard's place back to the button. */
  const choose = (): void => {
    ref.current?.querySelector("button")?.focus();
    setOpen(false);
  };

  return (
    <div className="menu" ref={ref} onKeyDown={keys}>
      <button type="button" aria-expanded={open} aria-label={props.label} onClick={() => setOpen(!open)}>
        {props.name} <span aria-hidden="true">▾</span>
      </button>
      {open && (
        <div className="menu-list panel" onClick={choose}>
          {props.children}
        </div>
      )}
    </div>
  );
}

import { type ReactNode, useEffect, useRef, useState } from "react";
import { useAway } from "../away.ts";
import { stepAmong } from "./listkeys.ts";

const LEAVING = ["pointerdown", "focusin"];
const ITEMS = ".menu-list :is(button, select, input):not(:disabled)";

/**
 * A button that opens a short list of commands and choices below it; Escape or a press elsewhere closes it, and so does what is
 * done there, but not a choice that is only set.
 */
export function Menu(props: {
  readonly name: ReactNode;
  readonly label: string;
  /** Where the list has no room to the right of the button. */
  readonly atEnd?: boolean;
  readonly className?: string;
  readonly title?: string;
  readonly children: ReactNode;
}) {
  const [open, setOpen] = useState(false);
  const ref = useRef<HTMLDivElement>(null);
  useAway(ref, open, setOpen, LEAVING);
  useEffect(() => {
    if (open) ref.current?.querySelector<HTMLElement>(ITEMS)?.focus();
  }, [open]);
  const back = (): void => ref.current?.querySelector("button")?.focus();

  const keys = (event: React.KeyboardEvent): void => {
    if (!open) return;
    const items = [...(ref.current?.querySelectorAll<HTMLElement>(ITEMS) ?? [])];
    // A field goes through its own values by these keys.
    const inField = event.target instanceof HTMLElement && event.target.matches("select, input");
    if (event.key === "Escape") {
      setOpen(false);
      back();
    } else if (inField || !stepAmong(event, items)) return;
    event.preventDefault();
    event.stopPropagation();
  };

  /** After the command has run, before what it opens is there: that gives the keyboard's place back to the button. */
  const choose = (event: React.MouseEvent): void => {
    if (!(event.target instanceof Element) || !event.target.closest("button")) return;
    back();
    setOpen(false);
  };

  return (
    <div className={`menu ${props.className ?? ""}`} ref={ref} onKeyDown={keys}>
      <button
        type="button"
        aria-expanded={open}
        aria-label={props.label}
        title={props.title}
        onClick={() => setOpen(!open)}
      >
        {props.name} <span className="opens-down" aria-hidden="true" />
      </button>
      {open && (
        <div className={props.atEnd ? "menu-list panel at-end" : "menu-list panel"} onClick={choose}>
          {props.children}
        </div>
      )}
    </div>
  );
}

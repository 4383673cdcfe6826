import { type RefObject, useEffect, useLayoutEffect, useRef, useState } from "react";
import { nameOf } from "../../session/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import type { ViewState } from "../viewstate.ts";
import { stepAmong } from "../parts/listkeys.ts";

/** What is offered at a task, in this order, a line between groups; each by the name it has everywhere. */
const OFFERED: readonly (readonly string[])[] = [
  ["take", "bench", "put on", "why not", "pin"],
  ["hand over", "swap crew", "place", "duplicate", "one more"],
  ["split", "merge"],
  ["minute shorter", "minute longer", "minute earlier", "minute later"],
  ["select EVA", "zoom selection", "in setup"],
];

/** The menu of the selected tasks, under the pointer or a button: what can be done now. Why the rest cannot says the list of commands. */
export function TaskMenu() {
  const { view } = useApp();
  const at = useView((state) => state.menu);
  useSession((state) => state.selection);
  const ref = useRef<HTMLDivElement>(null);
  const place = usePlace(ref, at);
  const ownPress = useOwnPress(at);
  useKeyboardThere(ref, at);
  usePressAway(ref, at);
  if (!at) return null;

  const close = (): void => view.setState({ menu: null });
  const keys = (event: React.KeyboardEvent): void => {
    const items = [...(ref.current?.querySelectorAll<HTMLElement>("button") ?? [])];
    if (event.key === "Escape" || event.key === "Tab") close();
    else if (!stepAmong(event, items)) return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <div
      ref={ref}
      className="task-menu panel"
      role="menu"
      aria-label="Selected tasks"
      style={place}
      {...ownPress}
      onKeyDown={keys}
    >
      <Offers close={close} />
    </div>
  );
}

/** The commands that can be done now, in their groups. */
function Offers({ close }: { close(): void }) {
  const { session } = useApp();
  return OFFERED.map((ids) => ids.flatMap((id) => session.commands.find(id) ?? []))
    .map((commands) => commands.filter((one) => one.disabledReason() === null))
    .filter((commands) => commands.length > 0)
    .map((commands) => (
      <div key={commands[0]?.id} role="group">
        {commands.map((command) => (
          <button
            key={command.id}
            type="button"
            role="menuitem"
            className="quiet"
            onClick={() => {
              // First: a command may ask where the menu was opened.
              command.run();
              close();
            }}
          >
            <span>{nameOf(command)}</span>
            <kbd>{command.keys[0] ?? ""}</kbd>
          </button>
        ))}
      </div>
    ));
}

type Box = RefObject<HTMLDivElement | null>;
type At = ViewState["menu"];

/** Where the menu stands: where it was opened, but whole on the page. */
function usePlace(ref: Box, at: At) {
  const [place, setPlace] = useState({ left: 0, top: 0 });
  useLayoutEffect(() => {
    const box = ref.current;
    if (!at || !box) return;
    setPlace({
      left: Math.max(4, Math.min(at.x, window.innerWidth - box.offsetWidth - 4)),
      top: Math.max(4, Math.min(at.y, window.innerHeight - box.offsetHeight - 4)),
    });
  }, [ref, at]);
  return place;
}

/** Lets only presses through that began on the menu: a finger that rested to open it may be lifted over it and means nothing by that. */
function useOwnPress(at: At) {
  const pressed = useRef(false);
  useLayoutEffect(() => {
    pressed.current = false;
  }, [at]);
  return {
    onPointerDownCapture: (): void => {
      pressed.current = true;
    },
    onClickCapture: (event: React.MouseEvent): void => {
      // A click by key counts none.
      if (event.detail > 0 && !pressed.current) event.stopPropagation();
    },
  };
}

/** Gives the keyboard to the menu, and back to what had it before where nothing else has taken it. */
function useKeyboardThere(ref: Box, at: At): void {
  const before = useRef<Element | null>(null);
  useLayoutEffect(() => {
    const box = ref.current;
    if (!at || !box) return;
    if (!box.contains(document.activeElement)) before.current = document.activeElement;
    box.querySelector<HTMLElement>("button")?.focus();
  }, [ref, at]);
  useEffect(() => {
    if (!at) return;
    return () => {
      const back = before.current;
      if (back instanceof HTMLElement && document.activeElement === document.body) back.focus();
    };
  }, [at]);
}

/** Closes the menu when something else is pressed or scrolled. */
function usePressAway(ref: Box, at: At): void {
  const { view } = useApp();
  useEffect(() => {
    if (!at) return;
    const away = (event: Event): void => {
      if (event.target instanceof Node && !ref.current?.contains(event.target)) view.setState({ menu: null });
    };
    document.addEventListener("pointerdown", away, true);
    document.addEventListener("wheel", away, true);
    return () => {
      document.removeEventListener("pointerdown", away, true);
      document.removeEventListener("wheel", away, true);
    };
  }, [ref, at, view]);
}

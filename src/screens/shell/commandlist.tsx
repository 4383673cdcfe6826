import { useEffect, useMemo, useRef, useState } from "react";
import { type Command, nameOf } from "../../session/index.ts";
import { useAround, useLook } from "../context.ts";

/** Every command by name, found by typing any part of its words; Enter does it. What cannot be done says why. */
export function CommandList() {
  const shown = useLook((state) => state.listShown);
  return shown ? <List /> : null;
}

interface Entry {
  readonly command: Command;
  readonly name: string;
  readonly why: string | null;
}

function List() {
  const { desk, look } = useAround();
  const ref = useRef<HTMLDialogElement>(null);
  const [words, setWords] = useState("");
  const [at, setAt] = useState(0);
  // What can be done is read once, when the list opens: nothing changes under it.
  const all = useMemo(
    () =>
      desk.commands
        .list()
        .map((command) => ({ command, name: nameOf(command), why: command.disabledReason() })),
    [desk],
  );
  const selected = desk.state.getState().selection.length > 0;
  const found = useMemo(() => matching(all, words, selected), [all, words, selected]);
  const here = Math.min(at, found.length - 1);
  useEffect(() => {
    ref.current?.showModal();
  }, []);
  useEffect(() => {
    ref.current?.querySelector('[aria-selected="true"]')?.scrollIntoView?.({ block: "nearest" });
  }, [here, found]);

  const close = (): void => look.setState({ listShown: false });
  const run = (entry: Entry | undefined): void => {
    if (!entry || entry.why !== null) return;
    ref.current?.close();
    close();
    entry.command.run();
  };
  const keys = (event: React.KeyboardEvent): void => {
    if (event.key === "ArrowDown") setAt(Math.min(here + 1, found.length - 1));
    else if (event.key === "ArrowUp") setAt(Math.max(here - 1, 0));
    else if (event.key === "PageDown") setAt(Math.min(here + 10, found.length - 1));
    else if (event.key === "PageUp") setAt(Math.max(here - 10, 0));
    else if (event.key === "Enter") run(found[here]);
    else return;
    event.preventDefault();
  };

  return (
    <dialog ref={ref} className="command-list" aria-label="Commands" onClose={close} onKeyDown={keys}>
      <input
        type="search"
        role="combobox"
        aria-label="Find a command"
        aria-expanded="true"
        aria-controls="commands"
        aria-activedescendant={found[here] ? `command-${here}` : undefined}
        placeholder="What to do"
        autoFocus
        value={words}
        onChange={(event) => {
          setWords(event.target.value);
          setAt(0);
        }}
      />
      <ul id="commands" role="listbox" aria-label="Commands">
        {found.map((entry, i) => (
          <li
            key={entry.command.id}
            id={`command-${i}`}
            role="option"
            aria-selected={i === here}
            aria-disabled={entry.why !== null}
            onClick={() => run(entry)}
          >
            <span className="note">{entry.command.group}</span>
            <span>
              {entry.name}
              {entry.why !== null && <i className="note"> {entry.why}</i>}
            </span>
            <kbd>{entry.command.keys[0] ?? ""}</kbd>
          </li>
        ))}
      </ul>
      {found.length === 0 && <p className="empty">No command has these words.</p>}
    </dialog>
  );
}

/**
 * Entries with every word in name or group: what can be done before what cannot, names that begin so first; with nothing typed
 * what fits the selection first.
 */
function matching(all: readonly Entry[], words: string, selected: boolean): readonly Entry[] {
  const parts = words.toLowerCase().split(/\s+/).filter(Boolean);
  const first = parts[0] ?? "";
  const rank = ({ name, why, command }: Entry): number =>
    (why === null ? 0 : 2) +
    ((first === "" ? selected && command.group === "Tasks" : name.toLowerCase().startsWith(first)) ? 0 : 1);
  return all
    .filter(({ name, command }) => {
      const text = `${name} ${command.group}`.toLowerCase();
      return parts.every((part) => text.includes(part));
    })
    .toSorted((a, b) => rank(a) - rank(b));
}

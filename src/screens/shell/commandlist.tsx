import { useEffect, useMemo, useRef, useState } from "react";
import { type Command, nameOf } from "../../session/index.ts";
import { useApp, useView } from "../context.ts";
import "./commandlist.css";

/** Every command by name, found by typing any part of its words; Enter does it. What cannot be done says why. */
export function CommandList() {
  const shown = useView((state) => state.listShown);
  return shown ? <List /> : null;
}

interface Entry {
  readonly command: Command;
  readonly name: string;
  readonly why: string | null;
}

function List() {
  const { view } = useApp();
  const ref = useRef<HTMLDialogElement>(null);
  const [words, setWords] = useState("");
  const [at, setAt] = useState(0);
  const found = useFound(words);
  const here = Math.min(at, found.length - 1);
  useEffect(() => {
    ref.current?.showModal();
  }, []);
  useEffect(() => {
    ref.current?.querySelector('[aria-selected="true"]')?.scrollIntoView?.({ block: "nearest" });
  }, [here, found]);

  const close = (): void => view.setState({ listShown: false });
  const run = (entry: Entry | undefined): void => {
    if (!entry || entry.why !== null) return;
    ref.current?.close();
    close();
    entry.command.run();
  };
  const keys = (event: React.KeyboardEvent): void => {
    const step = STEPS[event.key];
    if (step !== undefined) setAt(Math.max(0, Math.min(here + step, found.length - 1)));
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
          <Option key={entry.command.id} entry={entry} id={`command-${i}`} selected={i === here} run={run} />
        ))}
      </ul>
      {found.length === 0 && <p className="empty">No command has these words.</p>}
    </dialog>
  );
}

/** What people may call what has another name here, by the command's id: found, but never shown. */
const CALLED_ALSO: Readonly<Record<string, string>> = {
  take: "move drag",
  "minute earlier": "move shift",
  "minute later": "move shift",
  place: "move station",
  bench: "remove delete take off",
  "put on": "add insert",
  pin: "lock fix",
  duplicate: "copy",
  "hand over": "reassign",
  split: "cut divide",
  "in setup": "edit change",
  keys: "help shortcuts",
  theme: "colours light dark",
  save: "download",
  open: "load",
  export: "download calendar csv",
  import: "paste spreadsheet csv",
  shelf: "versions states merge compare",
  pack: "schedule fill",
  mend: "repair fix breach",
};

/** How far each key goes through the list. */
const STEPS: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowUp: -1, PageDown: 10, PageUp: -10 };

/** The commands that these words find. What can be done is read once, when the list opens: nothing changes under it. */
function useFound(words: string): readonly Entry[] {
  const { session } = useApp();
  const all = useMemo(
    () =>
      session.commands
        .list()
        .map((command) => ({ command, name: nameOf(command), why: command.disabledReason() })),
    [session],
  );
  const selected = session.state.getState().selection.length > 0;
  return useMemo(() => matching(all, words, selected), [all, words, selected]);
}

function Option(props: {
  readonly entry: Entry;
  readonly id: string;
  readonly selected: boolean;
  run(entry: Entry): void;
}) {
  const { entry, id, selected, run } = props;
  const { command, name, why } = entry;
  return (
    <li
      id={id}
      role="option"
      aria-selected={selected}
      aria-disabled={why !== null}
      title={why ?? undefined}
      onClick={() => run(entry)}
    >
      <span className="note">{command.group}</span>
      <span>
        {name}
        {why !== null && <i className="note"> {why}</i>}
      </span>
      <kbd>{command.keys[0] ?? ""}</kbd>
    </li>
  );
}

/**
 * Entries with every word in name, group or what they are called elsewhere: what can be done before what cannot, names that begin so first; with nothing typed
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
      const also = CALLED_ALSO[command.id]?.split(" ") ?? [];
      return parts.every((part) => text.includes(part) || also.some((word) => word.startsWith(part)));
    })
    .toSorted((a, b) => rank(a) - rank(b));
}

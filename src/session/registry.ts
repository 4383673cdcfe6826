/**
 * One list of everything that can be done, so that a menu, a key and the searchable list call the same thing by the
 * same name. The session puts in what it can do by itself; screens add what concerns them while they are shown.
 */

/** Something that can be done. */
export interface Command {
  readonly id: string;
  /** What it does, as a button would say it now. */
  readonly name: string | (() => string);
  /** Heading in lists: "Tasks", "Line", "Plan". */
  readonly group: string;
  /** Keys as they are written in lists, the first one preferred: "Ctrl+Z", "B", "Shift+F". */
  readonly keys: readonly string[];
  /** Where its keys count: anywhere, or only where no field or other control has the keyboard. */
  readonly where: "page" | "line";
  /** Why it cannot be done as things are; null when it can. */
  readonly disabledReason: () => string | null;
  readonly run: () => void;
}

export interface Registry {
  /** All commands in the order in which they were added. */
  list(): readonly Command[];
  find(id: string): Command | null;
  /** The command of a key as `keysOf` writes it; the one added last wins. */
  forKeys(keys: string): Command | null;
  /** Puts commands in; the answer takes them out again. One with a known id stands in for the earlier one. */
  add(commands: readonly Command[]): () => void;
  /** Does it; false when it is unknown or disabled. */
  run(id: string): boolean;
}

export function createRegistry(): Registry {
  let all: readonly Command[] = [];
  const find = (id: string): Command | null => all.findLast((one) => one.id === id) ?? null;
  return {
    list: () => all.filter((one) => find(one.id) === one),
    find,
    forKeys: (keys) => all.findLast((one) => one.keys.includes(keys)) ?? null,
    add(commands) {
      all = [...all, ...commands];
      return () => {
        all = all.filter((one) => !commands.includes(one));
      };
    },
    run(id) {
      const command = find(id);
      if (!command || command.disabledReason() !== null) return false;
      command.run();
      return true;
    },
  };
}

/** What a command is called now. */
export function nameOf(command: Command): string {
  return typeof command.name === "string" ? command.name : command.name();
}

/** A pressed key as lists write it: modifiers in a fixed order, letters in capitals, `Ctrl` for the command key too. */
export function keysOf(event: {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}): string {
  const letter = /^\p{L}$/u.test(event.key);
  const key = letter ? event.key.toUpperCase() : event.key === " " ? "Space" : event.key;
  const named = letter || event.key.length > 1;
  return [
    ...(event.ctrlKey || event.metaKey ? ["Ctrl"] : []),
    ...(event.altKey ? ["Alt"] : []),
    // A sign such as ? is already what the shift key made of it.
    ...(event.shiftKey && named ? ["Shift"] : []),
    key,
  ].join("+");
}

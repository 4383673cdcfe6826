/** Where keys lead in a short list of commands: one rule for every menu. Pure. */

/**
 * The item that a key leads to from item `at` (-1 for none): arrows round at the ends, Home, End, and a letter to the next item that begins
 * with it. Null where the key leads nowhere.
 */
export function listStep(key: string, at: number, items: readonly string[]): number | null {
  const count = items.length;
  if (count === 0) return null;
  switch (key) {
    case "ArrowDown":
      return (at + 1) % count;
    case "ArrowUp":
      return at < 0 ? count - 1 : (at - 1 + count) % count;
    case "Home":
      return 0;
    case "End":
      return count - 1;
    default:
      return letterStep(key, at, items);
  }
}

function letterStep(key: string, at: number, items: readonly string[]): number | null {
  if (key.length !== 1 || key === " ") return null;
  const letter = key.toLowerCase();
  for (let step = 1; step <= items.length; step += 1) {
    const place = (at + step) % items.length;
    if (items[place]?.trim().toLowerCase().startsWith(letter)) return place;
  }
  return null;
}

/** Leads the keyboard by `event` among these elements; true where it went to one of them. */
export function stepAmong(
  event: {
    readonly key: string;
    readonly ctrlKey: boolean;
    readonly metaKey: boolean;
    readonly altKey: boolean;
  },
  items: readonly HTMLElement[],
): boolean {
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  const at = items.findIndex((item) => item === document.activeElement);
  const to = listStep(
    event.key,
    at,
    items.map((item) => item.textContent ?? ""),
  );
  if (to === null) return false;
  items[to]?.focus();
  return true;
}

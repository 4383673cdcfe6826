import type { Fault } from "./fault.ts";

/** A group or list of a text that is being read. */
interface Open {
  /** The fields that it has had; null in a list. */
  readonly fields: Set<string> | null;
  /** The field or the number of the entry that is being read. */
  at: string | number;
}

const MOST_TOLD = 20;

/**
 * The fields that stand twice in one group of a JSON text, each with its path. What reads such a text takes one of the two and passes the
 * other over without a word, and not every reader takes the same one. The text has to be JSON.
 */
export function duplicateKeys(text: string): readonly Fault[] {
  const faults: Fault[] = [];
  const stack: Open[] = [];
  let last = "";
  for (const token of tokensIn(text)) {
    const top = stack.at(-1);
    if (token === "{") stack.push({ fields: new Set(), at: "" });
    else if (token === "[") stack.push({ fields: null, at: 0 });
    else if (token === "}" || token === "]") stack.pop();
    else if (token === ",") {
      if (typeof top?.at === "number") top.at += 1;
    } else if (token !== ":") last = token;
    else if (top?.fields) {
      // A field may be written in several ways: "a" is the same name as "\u0061".
      top.at = JSON.parse(last) as string;
      if (top.fields.has(top.at) && faults.length < MOST_TOLD)
        faults.push({
          path: stack.map(({ at }) => at).join("."),
          message: "stands here a second time; only one of the two can be meant",
        });
      top.fields.add(top.at);
    }
  }
  return faults;
}

/** The texts and marks of a JSON text. Step by step: a pattern needs room on the stack for each sign of a text, and megabytes have none. */
function* tokensIn(text: string): Generator<string> {
  for (let at = 0; at < text.length; at += 1) {
    const sign = text[at]!;
    if (sign === '"') {
      const end = closing(text, at);
      yield text.slice(at, end + 1);
      at = end;
    } else if ("{}[],:".includes(sign)) yield sign;
  }
}

/** Where the text that begins at `at` ends: at the next quotation mark without an odd number of backslashes before it. */
function closing(text: string, at: number): number {
  let end = at;
  let slashes: number;
  do {
    end = text.indexOf('"', end + 1);
    if (end < 0) return text.length;
    slashes = 0;
    while (text[end - 1 - slashes] === "\\") slashes += 1;
  } while (slashes % 2 === 1);
  return end;
}

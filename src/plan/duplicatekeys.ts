import type { Fault } from "./fault.ts";

/** A group or list of a text that is being read. */
interface Open {
  /** The fields that it has had; null in a list. */
  readonly fields: Set<string> | null;
  /** The field or the number of the entry that is being read. */
  at: string | number;
}

const TOKEN = /"(?:[^"\\]|\\.)*"|[{}[\],:]/gs;
const MOST_TOLD = 20;

/**
 * The fields that stand twice in one group of a JSON text, each with its path. What reads such a text takes one of the two and passes the
 * other over without a word, and not every reader takes the same one. The text has to be JSON.
 */
export function duplicateKeys(text: string): readonly Fault[] {
  const faults: Fault[] = [];
  const stack: Open[] = [];
  let last = "";
  for (const [token] of text.matchAll(TOKEN)) {
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

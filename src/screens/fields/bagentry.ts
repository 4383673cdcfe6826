import { done, failed } from "../../kernel/index.ts";
import { counted } from "../../words/index.ts";
import { emptyRead, type Entry, partsOf } from "./entry.ts";

const COUNT = /^\d{1,2}$/;

/** Sample bags: how many, or their own numbers with commas between. */
export const bags: Entry = {
  editor: "line",
  align: "start",
  show: (value) => (typeof value === "number" ? counted(value, "bag") : written(value)),
  draft: (value) => (typeof value === "number" ? String(value) : written(value)),
  read(draft, _plan, guide) {
    if (draft.trim() === "") return emptyRead(guide);
    const plain = draft.trim().replace(/\s*bags?$/i, "");
    if (COUNT.test(plain) && Number(plain) > 0) return done(Number(plain));
    const numbers = partsOf(plain.replace(/^no\.?\s/i, ""), /[,\s]+/);
    return numbers.length === 0 ? failed("Write how many, or their numbers.") : done(numbers);
  },
  form: "How many, or their own numbers: 4, or T1, T2, or no. 7.",
};

/** A single number that could be a count is called one. */
function written(value: unknown): string {
  if (!Array.isArray(value)) return "";
  const text = value.join(", ");
  return COUNT.test(text) ? `no. ${text}` : text;
}

import { done, failed } from "../../kernel/index.ts";
import { counted } from "../../words/index.ts";
import { emptyRead, type Entry, partsOf } from "./entry.ts";

/** Sample bags: how many, or their own numbers with commas between. */
export const bags: Entry = {
  editor: "line",
  align: "start",
  show: (value) => (typeof value === "number" ? counted(value, "bag") : written(value)),
  draft: (value) => (typeof value === "number" ? String(value) : written(value)),
  read(draft, _plan, guide) {
    if (draft.trim() === "") return emptyRead(guide);
    const parts = partsOf(draft, /[,\s]+/).filter((part) => !/^bags?$/i.test(part));
    const [first] = parts;
    if (first === undefined) return failed("Write how many, or their numbers.");
    return parts.length === 1 && /^\d{1,2}$/.test(first) && Number(first) > 0
      ? done(Number(first))
      : done(parts);
  },
  form: "How many, or their own numbers: 4, or T1, T2.",
};

function written(value: unknown): string {
  return Array.isArray(value) ? value.join(", ") : "";
}

import type { Plan } from "../plan/index.ts";

/**
 * The plan as a file: JSON whose text depends on the content alone, never on the order in which fields were set,
 * with short records on one line, so that a line-wise comparison shows one changed placement as one changed line.
 * Reading is `parseText` of the plan room, the only door in.
 */
export function planText(plan: Plan): string {
  return `${write(plan, "")}\n`;
}

/** Fields that lead a record, in reading order; the rest follows by name. */
const LEADING = ["format", "version", "id", "title", "name", "kind", "type", "task", "eva", "crew", "startS"];
const WIDEST = 100;

function write(value: unknown, indent: string): string {
  const flat = inline(value);
  if (flat.length + indent.length <= WIDEST || typeof value !== "object" || value === null) return flat;
  const deeper = `${indent}  `;
  const lines = Array.isArray(value)
    ? value.map((item) => `${deeper}${write(item, deeper)}`)
    : entries(value).map(([key, item]) => `${deeper}${JSON.stringify(key)}: ${write(item, deeper)}`);
  const [open, close] = Array.isArray(value) ? ["[", "]"] : ["{", "}"];
  return `${open}\n${lines.join(",\n")}\n${indent}${close}`;
}

function inline(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(inline).join(", ")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const fields = entries(value).map(([key, item]) => `${JSON.stringify(key)}: ${inline(item)}`);
  return fields.length === 0 ? "{}" : `{ ${fields.join(", ")} }`;
}

/** Fields that say something, in their fixed order. */
function entries(record: object): [string, unknown][] {
  const rank = (key: string): number => (LEADING.includes(key) ? LEADING.indexOf(key) : LEADING.length);
  return Object.entries(record)
    .filter(([, item]) => item !== undefined)
    .sort(([a], [b]) => rank(a) - rank(b) || (a < b ? -1 : 1));
}

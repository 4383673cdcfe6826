import { readFileSync } from "node:fs";
import { parseText, type Plan } from "../src/plan/index.ts";

/** The ready plans, whose truth are their files in `public`; `large` is made. */
export const READY_NAMES = ["demo", "small", "large"] as const;
export type ReadyName = (typeof READY_NAMES)[number];

/** The text of a ready plan. */
export function readyText(name: ReadyName): string {
  return readFileSync(new URL(`../public/plans/${name}.json`, import.meta.url), "utf8");
}

/** A ready plan, read afresh. */
export function readyPlan(name: ReadyName): Plan {
  const read = parseText(readyText(name));
  if (!read.ok) throw new Error(read.error.map(({ path, message }) => `${path}: ${message}`).join("\n"));
  return read.value;
}

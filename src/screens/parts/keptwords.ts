import type { QuarantinedPlan } from "../../session/index.ts";

/** What a kept plan is called. */
export function keptWords({ title, fault }: Pick<QuarantinedPlan, "title" | "fault">): string {
  if (title !== null && title.trim() !== "") return title;
  return fault === null ? "Plan without a title" : "Record without a title";
}

/** `812 bytes`, `14 kB`, `2.1 MB`: never less than it is. */
export function sizeWords(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  if (bytes <= 999_000) return `${Math.ceil(bytes / 1000)} kB`;
  return `${(Math.ceil(bytes / 100_000) / 10).toFixed(1)} MB`;
}

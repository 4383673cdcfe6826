import { withHiddenShown } from "../../plan/index.ts";

/** Text that is markup already; everything else is escaped where it is put in. */
export class Markup {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

export type Part = Markup | string | number | readonly Part[];

/** Markup in which every value is shown as the signs that it is made of, whatever it says. */
export function markup(fixed: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  return new Markup(
    fixed.reduce((text, next, k) => `${text}${k === 0 ? "" : escaped(parts[k - 1] ?? "")}${next}`, ""),
  );
}

function escaped(part: Part): string {
  if (part instanceof Markup) return part.text;
  if (typeof part === "object") return part.map(escaped).join("");
  return withHiddenShown(String(part))
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");
}

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type AtRule, parse, type Root } from "postcss";
import { describe, expect, it } from "vitest";

/** What holds of every style sheet, so that no room dresses what stands in another and no part has a measure of its own. */

interface Sheet {
  readonly file: string;
  readonly root: Root;
}

const TOKENS = "src/screens/theme/tokens.css";

const sheets: readonly Sheet[] = readdirSync("src/screens", { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".css"))
  .map((name) => join("src/screens", name))
  .map((file) => ({ file, root: parse(readFileSync(file, "utf8")) }));

/** Sheets of what stands on every screen: plain elements, the frame, the day's line. Their nouns are the project's words. */
const COMMON = /screens\/(theme|shell|day)\/|screens\/paper\/paper\.css$/;

const classesOf = (selector: string): readonly string[] =>
  [...selector.matchAll(/\.(-?[a-z_][\w-]*)/gi)].map(([, name = ""]) => name);

/** The classes that `base.css` gives to plain elements for everybody's use. */
const vocabulary = new Set(
  sheets
    .filter(({ file }) => file.endsWith("theme/base.css"))
    .flatMap(({ root }) => {
      const found: string[] = [];
      root.walkRules((rule) => {
        if (rule.parent === root) found.push(...classesOf(rule.selector));
      });
      return found;
    }),
);

/** Selectors of a sheet that would dress anything of that name on any screen. */
function bare({ file, root }: Sheet): readonly string[] {
  const folder = file.split("/").at(-2) ?? "";
  const found: string[] = [];
  root.walkRules((rule) => {
    if (rule.parent?.type === "atrule" && (rule.parent as AtRule).name === "keyframes") return;
    for (const selector of rule.selectors) {
      const own = classesOf(selector).filter((name) => !vocabulary.has(name));
      if (!own.some((name) => name.includes("-") || name === folder)) found.push(`${file}: ${selector}`);
    }
  });
  return found;
}

describe("style sheets", () => {
  it("of one screen dress nothing by a bare noun: the name of the room leads", () => {
    const own = sheets.filter(({ file }) => !COMMON.test(file));
    expect(own.length).toBeGreaterThan(10);
    expect(own.flatMap(bare)).toEqual([]);
  });

  it("ask for no width but those of the list", () => {
    const tokens = readFileSync(TOKENS, "utf8");
    const list = tokens.slice(
      tokens.indexOf("Widths at which"),
      tokens.indexOf(":root {", tokens.indexOf("Widths at which")),
    );
    const widths = new Set([...list.matchAll(/^ \* +(\d+(?:rem|px)) /gm)].map(([, width = ""]) => width));
    expect(widths.size).toBeGreaterThan(5);
    const asked = new Set<string>();
    for (const { root } of sheets)
      root.walkAtRules("media", (rule: AtRule) => {
        for (const [, width = ""] of rule.params.matchAll(/width: ([\d.]+(?:rem|px))/g)) asked.add(width);
      });
    // From where a width ends a query begins a sixteenth of a rem, or a pixel, later.
    const after = [...widths].map((width) =>
      width.endsWith("px") ? `${parseInt(width) + 1}px` : `${parseInt(width) + 0.0625}rem`,
    );
    const known = new Set([...widths, ...after]);
    expect([...asked].filter((width) => !known.has(width))).toEqual([]);
    expect([...widths].filter((width) => !asked.has(width))).toEqual([]);
  });

  it("stand over each other by the list alone, but for small numbers inside one part", () => {
    const levels: string[] = [];
    for (const { root } of sheets) root.walkDecls("z-index", (one) => void levels.push(one.value));
    expect(levels.length).toBeGreaterThan(10);
    expect(levels.filter((value) => !/^([0-9]|var\(--z-[a-z]+\))$/.test(value))).toEqual([]);
  });
});

import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import * as fontkit from "fontkit";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { READY_NAMES, readyText } from "../../readyplan.ts";

const require = createRequire(import.meta.url);

/** The files of the face that every screen is set in, as `glimpse.ts` asks for them. */
const faces = ["latin", "latin-ext"].map((subset) => {
  const file = `@fontsource-variable/encode-sans/files/encode-sans-${subset}-wdth-normal.woff2`;
  const font = fontkit.create(readFileSync(require.resolve(file)));
  if (!("hasGlyphForCodePoint" in font)) throw new Error(`${file} is a collection`);
  return font;
});

/** A blank leaves no ink, and is as good from another face. */
const BLANKS = ["\u202f", "\n", "\t"];
const has = (sign: string): boolean =>
  BLANKS.includes(sign) || faces.some((face) => face.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0));

/** Rooms whose texts come on a screen; paper has faces of its own. */
const ROOMS = [
  "answers",
  "check",
  "editor",
  "engine",
  "plan",
  "rehearsal",
  "rules",
  "screens",
  "session",
  "solver",
  "words",
];
/** Read from files of others, or only drawn as a path. */
const NOT_SHOWN = new Set(["plan/fields.ts"]);

function sourcesIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return sourcesIn(path);
    return /\.tsx?$/.test(entry.name) && !NOT_SHOWN.has(path.replace(/^src\//, "")) ? [path] : [];
  });
}

/** Every text that stands in a source file. */
function textsIn(path: string): string[] {
  const kind = path.endsWith("x") ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const file = ts.createSourceFile(path, readFileSync(path, "utf8"), ts.ScriptTarget.Latest, true, kind);
  const texts: string[] = [];
  const visit = (node: ts.Node): void => {
    if (
      ts.isStringLiteral(node) ||
      ts.isJsxText(node) ||
      ts.isNoSubstitutionTemplateLiteral(node) ||
      ts.isTemplateHead(node) ||
      ts.isTemplateMiddleOrTemplateTail(node)
    )
      texts.push(node.text);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return texts;
}

describe("the face that ships with the program", () => {
  it("has every sign of every text of the screens", () => {
    const lacking = ROOMS.flatMap((room) => sourcesIn(join("src", room))).flatMap((path) => {
      const signs = new Set(
        textsIn(path)
          .join("")
          .split(/(?:)/u)
          .filter((sign) => !has(sign)),
      );
      return signs.size > 0 ? [`${path}: ${[...signs].join(" ")}`] : [];
    });
    expect(lacking).toEqual([]);
  });

  it("has every sign that style sheets put in", () => {
    const sheets = readdirSync("src/screens", { recursive: true, encoding: "utf8" }).filter((one) =>
      one.endsWith(".css"),
    );
    const put = sheets.flatMap((sheet) =>
      [...readFileSync(join("src/screens", sheet), "utf8").matchAll(/content:\s*"([^"\\]+)"/g)].map(
        ([, text]) => text ?? "",
      ),
    );
    expect([...new Set(put.join(""))].filter((sign) => !has(sign))).toEqual([]);
  });

  it("has every sign of the ready plans", () => {
    for (const name of READY_NAMES)
      expect(
        [...new Set(readyText(name))].filter((sign) => !has(sign)),
        name,
      ).toEqual([]);
  });

  it("is asked about a sign that it lacks, so that the test can fail", () => {
    expect(has("→")).toBe(false);
    expect(has("×")).toBe(true);
  });
});

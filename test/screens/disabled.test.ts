import { readdirSync, readFileSync } from "node:fs";
import ts from "typescript";
import { describe, expect, it } from "vitest";

/** What cannot be pressed says why: no control of any screen is ever switched off in silence. */

const SCREENS = "src/screens";

/** `file:line` of every control in a source that may be off and has no title. */
function silent(file: string, text: string): string[] {
  const found: string[] = [];
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true, ts.ScriptKind.TSX);
  const visit = (node: ts.Node): void => {
    if (ts.isJsxOpeningElement(node) || ts.isJsxSelfClosingElement(node)) {
      const names = node.attributes.properties.flatMap((one) =>
        ts.isJsxAttribute(one) ? [one.name.getText(source)] : [],
      );
      // A part of ours that is told to be off says so by itself.
      const isPlain = /^[a-z]/.test(node.tagName.getText(source));
      const mayBeOff = names.includes("disabled") || names.includes("aria-disabled");
      if (isPlain && mayBeOff && !names.includes("title"))
        found.push(`${file}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1}`);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

describe("a control that is off", () => {
  it("says why, on every screen", () => {
    const files = readdirSync(SCREENS, { recursive: true, encoding: "utf8" }).filter((one) =>
      one.endsWith(".tsx"),
    );
    expect(files.length).toBeGreaterThan(100);
    expect(files.flatMap((file) => silent(file, readFileSync(`${SCREENS}/${file}`, "utf8")))).toEqual([]);
  });

  it("is found where it does not", () => {
    const tags = `
      <button disabled={x}>A</button>;
      <button disabled title="Why">B</button>;
      <input aria-disabled={x} />;
      <Ours disabled={x} />;`;
    expect(silent("a.tsx", tags)).toEqual(["a.tsx:2", "a.tsx:4"]);
  });
});

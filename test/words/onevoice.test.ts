import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";

/**
 * Nothing but `words` makes text of a moment or a length of time. Held by the shape of the code: a function that takes seconds
 * apart into minutes or hours, and makes a text of a part, is a clock of its own.
 */

const FILES = readdirSync("src", { recursive: true, encoding: "utf8" })
  .filter((name) => /\.tsx?$/.test(name))
  .map((name) => join("src", name));

/** True for `x % 60`, `x / 60`, `x / 3600` and the like. */
function takesApart(node: ts.Node): boolean {
  return (
    ts.isBinaryExpression(node) &&
    (node.operatorToken.kind === ts.SyntaxKind.PercentToken ||
      node.operatorToken.kind === ts.SyntaxKind.SlashToken) &&
    ts.isNumericLiteral(node.right) &&
    ["60", "3600"].includes(node.right.text)
  );
}

/** True for `Math.floor(x / 60) * 60`: a moment or a length still, put on a whole minute. */
function isWhole(node: ts.Node): boolean {
  return (
    ts.isBinaryExpression(node) &&
    node.operatorToken.kind === ts.SyntaxKind.AsteriskToken &&
    ts.isNumericLiteral(node.right) &&
    ["60", "3600"].includes(node.right.text)
  );
}

function some(node: ts.Node, is: (node: ts.Node) => boolean): boolean {
  if (isWhole(node)) return false;
  return is(node) || (ts.forEachChild(node, (child) => some(child, is)) ?? false);
}

/** Text made of a part: in a template, by `String`, or filled up with noughts. */
function makesText(node: ts.Node): boolean {
  if (ts.isTemplateSpan(node)) return some(node.expression, takesApart);
  if (ts.isJsxExpression(node))
    return !ts.isJsxAttribute(node.parent) && node.expression !== undefined && shown(node.expression);
  if (!ts.isCallExpression(node)) return false;
  const { expression: called } = node;
  if (ts.isIdentifier(called) && called.text === "String")
    return node.arguments.some((one) => some(one, takesApart));
  return (
    ts.isPropertyAccessExpression(called) &&
    ["padStart", "toFixed", "toString", "toLocaleString"].includes(called.name.text) &&
    some(called.expression, takesApart)
  );
}

/** A bare figure between tags, as `{Math.floor(seconds / 60)}`; what is passed to something else is its matter. */
function shown(node: ts.Expression): boolean {
  if (takesApart(node)) return true;
  return ts.isCallExpression(node) && ts.isPropertyAccessExpression(node.expression)
    ? node.expression.expression.getText() === "Math" && node.arguments.some(shown)
    : false;
}

function clocksIn(file: string, text: string): string[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const view = (node: ts.Node): void => {
    if (makesText(node)) {
      const { line } = source.getLineAndCharacterOfPosition(node.getStart());
      found.push(`${file}:${line + 1} ${node.getText().slice(0, 60)}`);
    }
    ts.forEachChild(node, view);
  };
  view(source);
  return found;
}

describe("one voice", () => {
  it("sees a clock where there is one", () => {
    const handmade = [
      "const a = (s: number) => `${Math.floor(s / 60)} min`;",
      "const b = (s: number) => String(s % 60).padStart(2, '0');",
      "const c = (s: number) => (s / 3600).toFixed(1);",
      "const d = (s: number) => <b>{Math.ceil(s / 60)}</b>;",
    ];
    for (const one of handmade) expect(clocksIn("a.tsx", one), one).not.toEqual([]);
    expect(clocksIn("a.tsx", "const e = (s: number) => <b x={s / 60}>{later(s / 60)}</b>;")).toEqual([]);
    expect(clocksIn("a.tsx", "const f = (s: number) => s / 60;")).toEqual([]);
  });

  it("nothing but words makes text of minutes, hours and seconds", () => {
    expect(FILES.length).toBeGreaterThan(400);
    const outside = FILES.filter((file) => !file.startsWith(join("src", "words")));
    expect(outside.flatMap((file) => clocksIn(file, readFileSync(file, "utf8")))).toEqual([]);
  });
});

import { existsSync, readFileSync } from "node:fs";
import ts from "typescript";
import { describe, expect, it } from "vitest";

const root = new URL("../", import.meta.url);
const rows = readFileSync(new URL("test/FAULTS.md", root), "utf8")
  .split("\n")
  .filter((line) => line.startsWith("| ") && !/^\| (fault|-+) /.test(line))
  .map((line) => {
    const [fault = "", , test = ""] = line.split("|").slice(1, -1);
    const [, file = "", title = ""] = /^ `([^`]+)`: (.+?) *$/.exec(test) ?? [];
    return { fault: fault.trim(), file, title };
  });

/** `it`, `test`, `it.each` of `it.each(rows)`: the words of what is called, without what it is called with. */
function wordsOf(called: ts.Expression): string[] {
  if (ts.isIdentifier(called)) return [called.text];
  if (ts.isPropertyAccessExpression(called)) return [...wordsOf(called.expression), called.name.text];
  return ts.isCallExpression(called) ? wordsOf(called.expression) : [];
}

/** What can be in the title of a test of a source that runs: as it is written, or words of the rows that it is run for. */
function titlesIn(text: string): string[] {
  const titles: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node)) {
      const words = wordsOf(node.expression);
      const isTest = words.some((word) => ["it", "test"].includes(word)) && !words.includes("describe");
      if (words.some((word) => ["skip", "todo", "fixme"].includes(word))) return;
      const [title] = node.arguments;
      const isRows = words.at(-1) === "each" && !ts.isCallExpression(node.expression);
      if (isTest && title) titles.push(...(isRows ? textsIn(title) : [title.getText()]));
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile("a.test.ts", text, ts.ScriptTarget.Latest, true));
  return titles;
}

/** The texts that stand anywhere in `node`; of comments nothing. */
function textsIn(node: ts.Node): string[] {
  if (ts.isStringLiteralLike(node)) return [node.text];
  const texts: string[] = [];
  ts.forEachChild(node, (child) => void texts.push(...textsIn(child)));
  return texts;
}

describe("the table of faults tried", () => {
  it("has rows of every kind: the store, workers, files, colleagues", () => {
    expect(rows.length).toBeGreaterThan(30);
  });

  it.each(rows)("is held by a test in each row: $fault", ({ file, title }) => {
    expect(file).not.toBe("");
    expect(existsSync(new URL(file, root))).toBe(true);
    const titles = titlesIn(readFileSync(new URL(file, root), "utf8"));
    expect(titles.filter((one) => one.includes(title))).not.toEqual([]);
  });

  it("sees which tests of a file run", () => {
    const source = `
      // it("commented out", () => undefined);
      const words = 'it("a text", () => undefined)';
      describe("a room", () => {
        it("runs", () => undefined);
        test.each([/* "no row" */ "a row"])("runs for %s", () => undefined);
        it.skip("is skipped", () => undefined);
      });
      describe.skip("another", () => it("is skipped with its room", () => undefined));`;
    expect(titlesIn(source)).toEqual(['"runs"', '"runs for %s"', "a row"]);
  });
});

import { describe, expect, it } from "vitest";
import { duplicateKeys, parseText, withHiddenShown } from "../../src/plan/index.ts";
import { smallInput } from "../session/bench.ts";

const text = JSON.stringify(smallInput);

describe("a field that stands twice", () => {
  it("is told with its path, however it is written and wherever it stands", () => {
    expect(duplicateKeys('{"a":1,"b":[{"c":1},{"c":{"d":1,"e":"}","d":2},"\\u0063":3}],"a":2}')).toEqual([
      { path: "b.1.c.d", message: expect.stringMatching(/a second time/) },
      { path: "b.1.c", message: expect.stringMatching(/a second time/) },
      { path: "a", message: expect.stringMatching(/a second time/) },
    ]);
  });

  it("is looked for behind texts of megabytes too", () => {
    for (const sign of ["x", "\n", "\\", '"'])
      expect(duplicateKeys(`{"a":${JSON.stringify(sign.repeat(4e6))},"b":1,"b":2}`)).toEqual([
        { path: "b", message: expect.stringMatching(/a second time/) },
      ]);
    const notes = text.replace('"title":"', `"title":"${"x".repeat(12e6)}`);
    expect(parseText(notes)).toMatchObject({ ok: false, error: [{ path: "title" }] });
  });

  it("is no such field where it only looks like one", () => {
    const plain = [
      '{"a":"a","b":"\\"a\\":1","c":["a","a"],"d":{"a":1}}',
      '["a","a",{"a":1},{"a":1}]',
      '"a"',
      "[]",
      '{"a\\\\":1,"a":2}',
    ];
    for (const one of plain) {
      expect(() => JSON.parse(one)).not.toThrow();
      expect(duplicateKeys(one)).toEqual([]);
    }
    expect(duplicateKeys(text)).toEqual([]);
  });

  it("has the file refused, which would else be read as one of two plans", () => {
    const read = parseText(text.replace('"title":', '"title":"Another day","title":'));
    expect(read).toMatchObject({ ok: false, error: [{ path: "title" }] });
  });

  it("of a text of many fields takes no more than one pass", () => {
    const many = `{${Array.from({ length: 200_000 }, (_, k) => `"k${k}":[]`).join(",")}}`;
    expect(duplicateKeys(many)).toEqual([]);
  });
});

describe("signs that are not seen", () => {
  it.each(["\u200b", " \u2060\u00ad ", "\u3164"])("are no name by themselves: %j", (name) => {
    const tasks = [{ ...smallInput.tasks[0]!, name }];
    const read = parseText(JSON.stringify({ ...smallInput, tasks, links: [], schedule: { placements: [] } }));
    expect(!read.ok && read.error).toEqual([{ path: "tasks.0.name", message: "must not be empty" }]);
  });

  for (const [sign, shown] of [
    ["\u202e", "U+202E"],
    ["\u2066", "U+2066"],
    ["\u0007", "U+0007"],
    ["\u001b", "U+001B"],
    ["\u009b", "U+009B"],
    ["\u200f", "U+200F"],
  ] as const) {
    it(`are refused in names and words, with their place, and shown in the terminal: ${shown}`, () => {
      const tasks = [{ ...smallInput.tasks[0]!, name: `Core${sign} sample` }];
      const read = parseText(
        JSON.stringify({ ...smallInput, tasks, links: [], schedule: { placements: [] } }),
      );
      expect(read.ok).toBe(false);
      expect(!read.ok && read.error).toEqual([
        { path: "tasks.0.name", message: expect.stringMatching(/a sign that is not seen/) },
      ]);
      expect(parseText(JSON.stringify({ ...smallInput, notes: `a${sign}b` })).ok).toBe(false);
      expect(parseText(JSON.stringify({ ...smallInput, notes: `${sign}b` })).ok).toBe(false);
      expect(withHiddenShown(`a${sign}b`)).toBe(`a${shown}b`);
    });
  }

  it("are no letters of any language, no tabs and no ends of lines", () => {
    const plain = "Steilhang «Nord» Ελλάδα مرحبا שלום 岩石 🪨\tx\r\ny";
    expect(withHiddenShown(plain)).toBe(plain);
    expect(parseText(JSON.stringify({ ...smallInput, notes: plain, title: "مرحبا" })).ok).toBe(true);
    expect(withHiddenShown("ready\rgone")).toBe("readyU+000Dgone");
  });
});

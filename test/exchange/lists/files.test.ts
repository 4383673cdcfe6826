import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { sheetsIn } from "../../../src/exchange/lists/index.ts";
import { bytesOf, sheetOf, workbook } from "./requests.ts";

const rows = (bytes: Uint8Array) => {
  const read = sheetsIn("wishes.xlsx", bytes);
  return read.ok ? read.value[0]?.rows : read.error;
};
const cells = (xml: string, after = "") => `<worksheet><sheetData>${xml}</sheetData>${after}</worksheet>`;

describe("text files", () => {
  it.each([
    [
      "commas",
      'Task,Where\n"Dig, deep","a ""b"""\n',
      [
        ["Task", "Where"],
        ["Dig, deep", 'a "b"'],
      ],
    ],
    [
      "tabs",
      "Task\tWhere\nDig, deep\tRim",
      [
        ["Task", "Where"],
        ["Dig, deep", "Rim"],
      ],
    ],
    [
      "semicolons",
      "Task;Mass\nDig;1,5\nLook;2,5",
      [
        ["Task", "Mass"],
        ["Dig", "1,5"],
        ["Look", "2,5"],
      ],
    ],
  ])("are split at %s", (_, text, expected) => expect(sheetOf(text).rows).toEqual(expected));

  it("are read in UTF-8 with its mark, in UTF-16, and in the western letters of old", () => {
    expect(sheetOf("\uFEFFTask\nGrün").rows).toEqual([["Task"], ["Grün"]]);
    const wide = new Uint8Array([
      0xff,
      0xfe,
      ...[..."Té\nx"].flatMap((c) => [c.charCodeAt(0) & 255, c.charCodeAt(0) >> 8]),
    ]);
    expect(rows(wide)).toEqual([["Té"], ["x"]]);
    expect(rows(new Uint8Array([0x47, 0x72, 0xfc, 0x6e]))).toEqual([["Grün"]]);
  });

  it("are refused with more rows or columns than any list has, or nothing in them", () => {
    expect(rows(bytesOf("a\n".repeat(5001)))).toBe("it has more than 5000 rows");
    expect(rows(bytesOf(",".repeat(200)))).toBe("it has more than 200 columns");
    expect(rows(bytesOf(" \n,,"))).toBe("it is empty");
    expect(rows(new Uint8Array(16 * 1024 * 1024 + 1))).toBe("it is larger than 16 MB");
  });
});

describe("workbooks", () => {
  it("give shared, inline and kept texts, numbers, ticks, and times as h:mm", () => {
    // Style 1 is a time of day by its number (20), style 2 by a pattern of the file's own; 0:25 is 25 / 1440 of a day.
    const styles =
      '<styleSheet><numFmts><numFmt numFmtId="164" formatCode="[h]:mm"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="20"/><xf numFmtId="164"/></cellXfs></styleSheet>';
    const shared =
      "<sst><si><t>Task</t></si><si><r><t>Di</t></r><r><t>g</t></r><rPh><t>x</t></rPh></si></sst>";
    const xml = cells(
      '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="C1" t="inlineStr"><is><t>Must</t></is></c></row>' +
        `<row r="3"><c r="A3" t="s"><v>1</v></c><c r="B3" s="1"><v>${25 / 1440}</v></c><c r="C3" t="b"><v>1</v></c>` +
        '<c r="D3" s="2"><v>1.25</v></c><c r="E3"><f>1+1</f><v>2.5</v></c></row>',
    );
    expect(rows(workbook(xml, { "xl/styles.xml": styles, "xl/sharedStrings.xml": shared }))).toEqual([
      ["Task", "", "Must"],
      [],
      ["Dig", "0:25", "yes", "30:00", "2.5"],
    ]);
  });

  it("say joined cells in each of them", () => {
    const xml = cells(
      '<row r="1"><c r="A1" t="str"><v>Time</v></c></row><row r="2"><c r="A2"><v>1</v></c><c r="B2"><v>2</v></c></row>',
      '<mergeCells><mergeCell ref="A1:B1"/></mergeCells>',
    );
    expect(rows(workbook(xml))).toEqual([
      ["Time", "Time"],
      ["1", "2"],
    ]);
  });

  it.each<[string, Uint8Array, RegExp]>([
    ["no zip inside", new Uint8Array([0x50, 0x4b, 3, 4, 0, 0]), /./],
    ["no workbook in the zip", zipSync({ "a.txt": strToU8("x") }), /no workbook/],
    ["an older or locked one", new Uint8Array([0xd0, 0xcf, 0x11, 0xe0]), /save it as \.xlsx/],
    ["XML that ends too soon", workbook("<worksheet><sheetData><row>"), /no XML/],
    [
      "entities of its own, each ten of the one before",
      workbook('<!DOCTYPE a [<!ENTITY b "cccccccccc"><!ENTITY a "&b;&b;">]><worksheet>&a;</worksheet>'),
      /entities/,
    ],
    ["a row beyond any list", workbook(cells('<row r="999999"><c r="A999999"><v>1</v></c></row>')), /rows/],
    ["a column beyond any list", workbook(cells('<row r="1"><c r="XFD1"><v>1</v></c></row>')), /columns/],
    // 30 MB of blanks are 30 kB in the zip.
    ["a part that is huge unpacked", workbook(cells(" ".repeat(30 * 1024 * 1024))), /too large unpacked/],
  ])("are refused with %s", (_, bytes, why) => expect(rows(bytes)).toMatch(why));

  it("take no more room than the zip says, even where it lies", () => {
    const bytes = workbook(cells(" ".repeat(30 * 1024 * 1024)));
    // The size unpacked stands in the directory of the zip, 24 bytes behind each signature.
    const view = new DataView(bytes.buffer, bytes.byteOffset);
    for (let at = 0; at + 46 < bytes.length; at += 1)
      if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, 1000, true);
    expect(typeof rows(bytes)).toBe("string");
  });
});

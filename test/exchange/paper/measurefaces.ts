import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import * as fontkit from "fontkit";
import {
  FACE_NAMES,
  faceFile,
  type FaceName,
  type Subset,
  SUBSETS,
} from "../../../src/exchange/paper/faces/files.ts";

/** Measures the font files and writes the table that paper is set by: `npx tsx test/exchange/paper/measurefaces.ts`. */

const TABLE = "src/exchange/paper/faces/advances.ts";
const require = createRequire(import.meta.url);

/** The bytes of a font file of the packages. */
export function fontBytes(file: string): Buffer {
  return readFileSync(require.resolve(file));
}

function fontOf(name: FaceName, subset: Subset): fontkit.Font {
  const font = fontkit.create(fontBytes(faceFile(name, subset)));
  if (!("layout" in font)) throw new Error("a collection of fonts");
  return font;
}

/** Height of capitals and of small letters, as shares of the size. */
export function heightsOf(name: FaceName): { readonly cap: number; readonly small: number } {
  const { capHeight, xHeight, unitsPerEm } = fontOf(name, "latin");
  return { cap: capHeight / unitsPerEm, small: xHeight / unitsPerEm };
}

/** Advances of every sign of a file that can be set alone, thousandths of the size; figures all as wide as each other. */
function advancesIn(name: FaceName, subset: Subset): Map<string, number> {
  const font = fontOf(name, subset);
  return new Map(
    font.characterSet.flatMap((point): [string, number][] => {
      const sign = String.fromCodePoint(point);
      if (!/^[\p{L}\p{N}\p{P}\p{S} ]$/u.test(sign)) return [];
      const { advanceWidth } = font.layout(sign, ["tnum"]);
      return [[sign, Math.round((advanceWidth / font.unitsPerEm) * 100_000) / 100]];
    }),
  );
}

/** The advances of a face, each sign in the first file that has it. */
export function advancesOf(name: FaceName): Map<string, number> {
  return new Map(SUBSETS.toReversed().flatMap((subset) => [...advancesIn(name, subset)]));
}

function tableText(): string {
  const latin = [...advancesIn("plain", "latin").keys()];
  const more = [...advancesIn("plain", "latin-ext").keys()].filter((sign) => !latin.includes(sign));
  const signs = [...latin, ...more];
  const rows = FACE_NAMES.map((name) => {
    const advances = advancesOf(name);
    if (advances.size !== signs.length) throw new Error(`${name} has other signs`);
    return `  ${name}:\n    ${JSON.stringify(signs.map((sign) => advances.get(sign)).join(" "))},`;
  });
  return [
    `import type { FaceName, Subset } from "./files.ts";`,
    ``,
    `/** Measured from the font files by test/exchange/paper/measurefaces.ts. */`,
    ``,
    `/** Every sign that paper can be set in, by the file that it is taken from. */`,
    `export const SIGNS: Readonly<Record<Subset, string>> = {`,
    `  latin: ${JSON.stringify(latin.join(""))},`,
    `  "latin-ext": ${JSON.stringify(more.join(""))},`,
    `};`,
    ``,
    `/** Their advances in thousandths of the size, in that order. */`,
    `export const ADVANCES: Readonly<Record<FaceName, string>> = {`,
    ...rows,
    `};`,
    ``,
  ].join("\n");
}

if (process.argv[1] === import.meta.filename) writeFileSync(TABLE, tableText());

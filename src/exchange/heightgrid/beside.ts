import { projectionOfWkt } from "./wkt.ts";
import { maskIn } from "./geotiff.ts";
import type { HeightSource } from "./source.ts";

/**
 * Files that lie beside a file of heights and are called like it: `.prj` holds its projection as WKT 1 or in PROJ's words, `.msk` a
 * mask as TIFF, 0 where heights are unknown. They are read where they are given together with it; what is not is told.
 */

export interface GivenFile {
  readonly name: string;
  readonly bytes: ArrayBuffer;
}

const PROJECTION = ".prj";
const MASK = ".msk";

/** The one file of heights among those chosen together, and the others; in words why not where it is not one. */
export function heightsAmong<File extends { readonly name: string }>(
  files: readonly File[],
): { readonly grid: File; readonly beside: readonly File[] } | string {
  const grids = files.filter(({ name }) => !SIDE.test(name));
  const [grid, ...more] = grids;
  if (!grid) return "no file of heights is among them";
  if (more.length > 0)
    return `they are several files of heights (${grids.map(({ name }) => name).join(", ")}): choose one, with what lies beside it`;
  return { grid, beside: files.filter((file) => file !== grid) };
}

/** Endings of files that lie beside grids and hold no heights. */
const SIDE = /\.(prj|msk|xml|tfw|tifw|wld|ovr|clr|hdr)$/i;

/** `source` with what the files beside it say, and a note on each that says nothing or is not there. */
export async function withBeside(source: HeightSource, beside: readonly GivenFile[]): Promise<HeightSource> {
  let now = source;
  for (const file of beside) {
    const read = await readBeside(now, file);
    now = typeof read === "string" ? noted(now, `${file.name} was not read: ${read}.`) : read;
  }
  const given = (ending: string): boolean => beside.some(({ name }) => name.toLowerCase().endsWith(ending));
  const absent = [
    ...(now.projection === null && !given(PROJECTION) ? [PROJECTION] : []),
    ...(given(MASK) ? [] : [MASK]),
  ];
  return absent.length === 0
    ? now
    : noted(
        now,
        `No ${absent.join(" and no ")} beside it was given: if there is one, choose it together with the file.`,
      );
}

/** `source` with what `file` says, or why it says nothing. */
async function readBeside(source: HeightSource, { name, bytes }: GivenFile): Promise<HeightSource | string> {
  const ending = [PROJECTION, MASK].find((one) => name.toLowerCase().endsWith(one));
  if (ending === undefined) return "files of this kind say nothing that is needed";
  if (!isCalledLike(name.slice(0, -ending.length), source.name))
    return `it is not called like ${source.name}`;
  if (ending === PROJECTION) {
    if (source.projection !== null) return `${source.name} says itself how it is projected`;
    const text = new TextDecoder().decode(bytes).trim();
    const found = text.startsWith("+proj=") ? { proj: text, words: text } : projectionOfWkt(text);
    if (found.proj === null) return `it holds ${found.words}, which is not understood here`;
    return { ...source, projection: found.proj, projectionWords: `${found.words}, as ${name} says` };
  }
  const mask = await maskIn(bytes);
  if (typeof mask === "string") return mask;
  if (mask.columns !== source.columns || mask.rows !== source.rows)
    return `it has ${mask.columns} by ${mask.rows} points, ${source.name} has ${source.columns} by ${source.rows}`;
  return noted(
    {
      ...source,
      async read(cut) {
        const [heights, cover] = await Promise.all([source.read(cut), mask.read(cut)]);
        return heights.map((height, k) => (cover[k] === 0 ? NaN : height));
      },
    },
    `Where ${name} is transparent heights are unknown.`,
  );
}

/** Whether what is left of a side file's name is that of the grid, with its ending or without. */
function isCalledLike(stem: string, grid: string): boolean {
  const lower = grid.toLowerCase();
  return [lower, lower.replace(/\.[^.]*$/, "")].includes(stem.toLowerCase());
}

function noted(source: HeightSource, note: string): HeightSource {
  return { ...source, notes: [...source.notes, note] };
}

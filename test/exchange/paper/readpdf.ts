import { getDocument, OPS } from "pdfjs-dist/legacy/build/pdf.mjs";
import type { FaceSource } from "../../../src/exchange/paper/faces/files.ts";
import { fontBytes } from "./measurefaces.ts";

/** A PDF as a program that knows nothing of ours reads it. Lengths in mm from the top left of the page. */

export const testFaces: FaceSource = (file) => Promise.resolve(new Uint8Array(fontBytes(file)));

/** One run of text as it stands on a page. */
export interface TextBox {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  /** Of its baseline. */
  readonly baseline: number;
  readonly sizePt: number;
}

/** A piece of the structure: what it is, the texts in it, and what it says by itself. */
export interface Piece {
  readonly role: string;
  readonly says: string | null;
  readonly text: string;
  /** The texts in it itself, as they stand on the page. */
  readonly boxes: readonly TextBox[];
  readonly parts: readonly Piece[];
}

export interface PdfPage {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly boxes: readonly TextBox[];
  readonly structure: Piece | null;
  /** What is painted in no piece of the structure and is not marked as furniture of the page, in words. */
  readonly loose: readonly string[];
}

export interface PdfFile {
  readonly title: string | null;
  readonly lang: string | null;
  readonly tagged: boolean;
  /** A window shows the title in place of the file's name. */
  readonly titleShown: boolean;
  readonly createdMs: number | null;
  readonly outline: readonly string[];
  readonly pages: readonly PdfPage[];
}

const MM = 25.4 / 72;

export async function readPdf(bytes: Uint8Array): Promise<PdfFile> {
  // The reader takes the bytes for its own.
  const file = await getDocument({ data: Uint8Array.from(bytes), verbosity: 0, isEvalSupported: false })
    .promise;
  const meta = await file.getMetadata();
  const info: Record<string, unknown> = { ...meta.info };
  const mark = await file.getMarkInfo();
  const pages: PdfPage[] = [];
  for (let i = 1; i <= file.numPages; i += 1) {
    const page = await file.getPage(i);
    const { width, height } = page.getViewport({ scale: 1 });
    const content = await page.getTextContent({ includeMarkedContent: true });
    const boxes: TextBox[] = [];
    const byMark = new Map<string, TextBox[]>();
    let open: string | null = null;
    for (const item of content.items) {
      if (!("str" in item)) {
        open = item.type === "endMarkedContent" ? null : (item.id ?? null);
        continue;
      }
      if (item.str === "") continue;
      const [a, , , , x, y] = item.transform.map(Number) as [number, number, number, number, number, number];
      const box: TextBox = {
        text: item.str,
        left: x * MM,
        right: (x + item.width) * MM,
        baseline: (height - y) * MM,
        sizePt: a,
      };
      if (open !== null) byMark.set(open, [...(byMark.get(open) ?? []), box]);
      if (item.str.trim() !== "") boxes.push(box);
    }
    const tree = await page.getStructTree();
    pages.push({
      widthMm: width * MM,
      heightMm: height * MM,
      boxes,
      structure: tree ? pieceOf(tree, byMark) : null,
      loose: looseIn(await page.getOperatorList(), new Set(tree ? idsIn(tree) : [])),
    });
  }
  const outline = (await file.getOutline()) ?? [];
  const preferences: Record<string, unknown> = { ...(await file.getViewerPreferences()) };
  const titleShown = preferences["DisplayDocTitle"] === true;
  await file.loadingTask.destroy();
  const created = typeof info["CreationDate"] === "string" ? dateMs(info["CreationDate"]) : null;
  return {
    title: typeof info["Title"] === "string" ? info["Title"] : null,
    lang: typeof info["Language"] === "string" ? info["Language"] : null,
    tagged: mark?.["Marked"] === true,
    titleShown,
    createdMs: created,
    outline: outline.map(({ title }) => title),
    pages,
  };
}

function pieceOf(node: object, byMark: ReadonlyMap<string, readonly TextBox[]>): Piece {
  const get = (key: string): unknown => (key in node ? Reflect.get(node, key) : undefined);
  const children = get("children");
  const list = Array.isArray(children)
    ? children.filter((one): one is object => typeof one === "object")
    : [];
  const own = list.map((child) =>
    "id" in child && typeof child.id === "string" ? (byMark.get(child.id) ?? []) : [],
  );
  const parts = list.filter((child) => "role" in child).map((child) => pieceOf(child, byMark));
  const role = get("role");
  const alt = get("alt");
  return {
    role: typeof role === "string" ? role : "",
    says: typeof alt === "string" ? alt : null,
    text: own
      .filter((one) => one.length > 0)
      .map((one) => one.map(({ text }) => text).join(""))
      .join(" "),
    boxes: own.flat(),
    parts,
  };
}

/** The numbers of the marked content that a structure holds. */
function idsIn(node: object): string[] {
  const children: unknown = Reflect.get(node, "children");
  const own = "id" in node && typeof node.id === "string" ? [node.id.replace(/^.*_mc/, "")] : [];
  return [...own, ...(Array.isArray(children) ? children.flatMap((one: object) => idsIn(one)) : [])];
}

const PAINTS: ReadonlyMap<number, string> = new Map([
  [OPS.showText, "text"],
  [OPS.constructPath, "path"],
]);

/** What is painted outside of marked content, or inside of some that the structure knows nothing of. */
function looseIn(
  { fnArray, argsArray }: { readonly fnArray: readonly number[]; readonly argsArray: readonly unknown[] },
  known: ReadonlySet<string>,
): string[] {
  const loose: string[] = [];
  const open: (readonly unknown[])[] = [];
  fnArray.forEach((operator, i) => {
    const args: unknown = argsArray[i];
    if (operator === OPS.beginMarkedContent || operator === OPS.beginMarkedContentProps)
      open.push(Array.isArray(args) ? args : []);
    if (operator === OPS.endMarkedContent) open.pop();
    const paints = PAINTS.get(operator);
    if (paints === undefined) return;
    const furniture = open.some(([role]) => role === "Artifact");
    const inside = open.some(([, id]) => known.has(String(id)));
    // In neither is loose, and in both is said twice over.
    if (furniture === inside) loose.push(`${paints} ${i}, in ${JSON.stringify(open)}`);
  });
  return loose;
}

/** `D:20310405060000Z` as milliseconds since 1970. */
function dateMs(pdfDate: string): number {
  const [, y, mo, d, h, mi, s] = /^D:(\d{4})(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)/.exec(pdfDate) ?? [];
  return Date.UTC(Number(y), Number(mo) - 1, Number(d), Number(h), Number(mi), Number(s));
}

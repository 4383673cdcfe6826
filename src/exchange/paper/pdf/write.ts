import PDFDocument from "pdfkit";
import { SIGNS } from "../faces/advances.ts";
import {
  FACE_NAMES,
  faceFile,
  type FaceName,
  type FaceSource,
  type Subset,
  SUBSETS,
} from "../faces/files.ts";
import type { Mark, Paper, TextMark } from "../page.ts";
import { faceName, MM_PER_PT, textWidth } from "../type.ts";
import { joined, packAlike } from "./packing.ts";
import { structureOf } from "./structure.ts";

type Doc = PDFKit.PDFDocument;

/** Text is set as it is measured: sign by sign, figures as wide as each other. The library's types know features to switch on only. */
const AS_MEASURED: object = { features: { tnum: true, kern: false, liga: false } };

/** The types do not know this profile yet; it writes the mark of ISO 14289-1 into the file's metadata. */
const ACCESSIBLE: object = { subset: "PDF/UA" };

/** The paper as a PDF's bytes (ISO 32000-1, tagged as ISO 14289-1 asks). */
export async function writePdf(paper: Paper, faces: FaceSource): Promise<Uint8Array> {
  const date = new Date(paper.epochMs);
  const doc = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: "1.7",
    compress: false,
    ...ACCESSIBLE,
    tagged: true,
    lang: "en",
    displayTitle: true,
    margin: 0,
    font: "",
    info: {
      Title: paper.title,
      Creator: "Lopeline",
      Producer: "Lopeline",
      CreationDate: date,
      ModDate: date,
    },
  });
  packAlike(doc);
  const bytes = bytesOf(doc);
  for (const [name, subset] of usedFaces(paper)) {
    doc.registerFont(fontKey(name, subset), await faces(faceFile(name, subset)));
  }
  const structure = structureOf(doc);
  for (const { widthMm, heightMm, marks, name } of paper.pages) {
    doc.addPage({ size: [pt(widthMm), pt(heightMm)], margin: 0 });
    doc.outline.addItem(name);
    structure.page(name, marks, (mark) => draw(doc, mark));
  }
  structure.end();
  doc.end();
  return bytes;
}

function bytesOf(doc: Doc): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    doc.on("error", reject);
    doc.on("end", () => resolve(joined(chunks)));
  });
}

/** The files that the texts of a paper need. */
function usedFaces({ pages }: Paper): (readonly [FaceName, Subset])[] {
  const used = new Set<string>();
  for (const { marks } of pages) {
    for (const mark of marks) {
      if (mark.kind !== "text") continue;
      for (const { subset } of runsOf(mark.text)) used.add(fontKey(faceName(mark), subset));
    }
  }
  return FACE_NAMES.flatMap((name) =>
    SUBSETS.filter((subset) => used.has(fontKey(name, subset))).map((subset) => [name, subset] as const),
  );
}

function fontKey(name: FaceName, subset: Subset): string {
  return `${name} ${subset}`;
}

const further: ReadonlySet<string> = new Set(SIGNS["latin-ext"]);

/** A text in runs that one file can set. */
function runsOf(text: string): { readonly text: string; readonly subset: Subset }[] {
  const runs: { text: string; subset: Subset }[] = [];
  for (const sign of text) {
    const subset: Subset = further.has(sign) ? "latin-ext" : "latin";
    const last = runs.at(-1);
    if (last?.subset === subset) last.text += sign;
    else runs.push({ text: sign, subset });
  }
  return runs;
}

function draw(doc: Doc, mark: Mark): void {
  if (mark.kind === "text") return drawText(doc, mark);
  if (mark.kind === "lines") {
    doc.lineWidth(pt(mark.widthMm)).strokeColor(grey(mark.ink));
    for (const [x1, y1, x2, y2] of mark.segments) doc.moveTo(pt(x1), pt(y1)).lineTo(pt(x2), pt(y2));
    doc.stroke();
    return;
  }
  const { x, y, w, h, lineMm, fill } = mark;
  if (lineMm <= 0 && fill === null) return;
  doc.rect(pt(x), pt(y), pt(w), pt(h)).lineWidth(pt(lineMm));
  if (fill === null) doc.stroke(BLACK);
  else if (lineMm > 0) doc.fillAndStroke(grey(fill), BLACK);
  else doc.fill(grey(fill));
}

function drawText(doc: Doc, mark: TextMark): void {
  doc.fillColor(grey(mark.ink)).fontSize(mark.sizePt);
  let { x } = mark;
  for (const { text, subset } of runsOf(mark.text)) {
    doc.font(fontKey(faceName(mark), subset));
    doc.text(text, pt(x), pt(mark.y), { lineBreak: false, baseline: "alphabetic", ...AS_MEASURED });
    x += textWidth(text, mark);
  }
}

const BLACK = "#000000";

/** A grey as the library takes it; black and white are exact. */
function grey(ink: number): string {
  const part = Math.round(ink * 255)
    .toString(16)
    .padStart(2, "0");
  return `#${part}${part}${part}`;
}

/** Points, to a thousandth: finer than any printer, short in the file. */
function pt(mm: number): number {
  return Math.round((mm / MM_PER_PT) * 1000) / 1000;
}

import {
  beginText,
  endText,
  fill,
  fillAndStroke,
  lineTo,
  moveTo,
  PDFDocument,
  type PDFFont,
  type PDFName,
  type PDFOperator,
  type PDFPage,
  PrintScaling,
  rectangle,
  setFillingGrayscaleColor,
  setFontAndSize,
  setLineWidth,
  setStrokingGrayscaleColor,
  setTextMatrix,
  showText,
  StandardFonts,
  stroke,
} from "pdf-lib";
import type { Mark, Paper } from "./page.ts";
import { MM_PER_PT } from "./type.ts";

/**
 * The paper as PDF bytes, in true size, with text that can be selected. Runs in a browser as well as headless; the
 * same paper gives the same bytes.
 */
export async function toPdf(paper: Paper): Promise<Uint8Array> {
  const pdf = await PDFDocument.create({ updateMetadata: false });
  const date = new Date(paper.epochMs);
  pdf.setTitle(paper.title, { showInWindowTitleBar: true });
  pdf.setCreator("Lopeline");
  pdf.setProducer("Lopeline");
  pdf.setCreationDate(date);
  pdf.setModificationDate(date);
  pdf.setLanguage("en");
  // A cuff page that a printer shrinks to fit no longer fits its cuff.
  pdf.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
  const plain = await pdf.embedFont(StandardFonts.Helvetica);
  const bold = await pdf.embedFont(StandardFonts.HelveticaBold);
  for (const { widthMm, heightMm, marks } of paper.pages) {
    const page = pdf.addPage([pt(widthMm), pt(heightMm)]);
    const fonts = { plain: fontOn(page, plain, "Plain"), bold: fontOn(page, bold, "Bold") };
    page.pushOperators(...marks.flatMap((mark) => operators(mark, heightMm, fonts)));
  }
  return pdf.save({ addDefaultPage: false });
}

interface FontOnPage {
  readonly font: PDFFont;
  readonly key: PDFName;
}

function fontOn(page: PDFPage, font: PDFFont, tag: string): FontOnPage {
  return { font, key: page.node.newFontDictionary(tag, font.ref) };
}

function operators(
  mark: Mark,
  heightMm: number,
  fonts: { readonly plain: FontOnPage; readonly bold: FontOnPage },
): PDFOperator[] {
  const up = (y: number): number => pt(heightMm - y);
  if (mark.kind === "text") {
    const { font, key } = mark.bold ? fonts.bold : fonts.plain;
    return [
      setFillingGrayscaleColor(mark.ink),
      beginText(),
      setFontAndSize(key, mark.sizePt),
      setTextMatrix(1, 0, 0, 1, pt(mark.x), up(mark.y)),
      showText(font.encodeText(mark.text)),
      endText(),
    ];
  }
  if (mark.kind === "lines") {
    return [
      setStrokingGrayscaleColor(mark.ink),
      setLineWidth(pt(mark.widthMm)),
      ...mark.segments.flatMap(([x1, y1, x2, y2]) => [moveTo(pt(x1), up(y1)), lineTo(pt(x2), up(y2))]),
      stroke(),
    ];
  }
  const shape = rectangle(pt(mark.x), up(mark.y + mark.h), pt(mark.w), pt(mark.h));
  const ink = [setStrokingGrayscaleColor(0), setLineWidth(pt(mark.lineMm))];
  if (mark.fill === null) return mark.lineMm > 0 ? [...ink, shape, stroke()] : [];
  const inside = setFillingGrayscaleColor(mark.fill);
  return mark.lineMm > 0 ? [...ink, inside, shape, fillAndStroke()] : [inside, shape, fill()];
}

/** Points, to a thousandth: finer than any printer, short in the file. */
function pt(mm: number): number {
  return Math.round((mm / MM_PER_PT) * 1000) / 1000;
}

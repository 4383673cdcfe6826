import { FACES } from "./faces/files.ts";
import type { Mark, Page, Paper } from "./page.ts";
import { faceName, MM_PER_PT, textWidth } from "./type.ts";

/**
 * The pages as SVG for the screen and for a browser's print: same boxes, faces and widths as the PDF; `textLength`
 * holds the measured width where a face is not there.
 */
export function toSvgPages(paper: Paper): string[] {
  return paper.pages.map(svgPage);
}

function svgPage(page: Page): string {
  const { widthMm, heightMm, name, marks } = page;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="${widthMm}mm" height="${heightMm}mm"`,
    ` viewBox="0 0 ${widthMm} ${heightMm}"`,
    `><title>${escape(name)}</title>`,
    `<rect width="${widthMm}" height="${heightMm}" fill="#fff"/>`,
    ...marks.map(svgMark),
    `</svg>`,
  ].join("");
}

function svgMark(mark: Mark): string {
  if (mark.kind === "text") {
    const size = short(mark.sizePt * MM_PER_PT);
    const { family, weight } = FACES[faceName(mark)];
    const long = short(textWidth(mark.text, mark));
    return `<text x="${short(mark.x)}" y="${short(mark.y)}" font-family="'${family}', sans-serif" font-weight="${weight}" font-size="${size}" fill="${grey(mark.ink)}" textLength="${long}" lengthAdjust="spacingAndGlyphs" xml:space="preserve">${escape(mark.text)}</text>`;
  }
  if (mark.kind === "lines") {
    const path = mark.segments
      .map(([x1, y1, x2, y2]) => `M${short(x1)} ${short(y1)}L${short(x2)} ${short(y2)}`)
      .join("");
    return `<path d="${path}" fill="none" stroke="${grey(mark.ink)}" stroke-width="${short(mark.widthMm)}"/>`;
  }
  const stroke = mark.lineMm > 0 ? ` stroke="#000" stroke-width="${short(mark.lineMm)}"` : "";
  const fill = mark.fill === null ? "none" : grey(mark.fill);
  return `<rect x="${short(mark.x)}" y="${short(mark.y)}" width="${short(mark.w)}" height="${short(mark.h)}" fill="${fill}"${stroke}/>`;
}

function grey(ink: number): string {
  const part = Math.round(ink * 255)
    .toString(16)
    .padStart(2, "0");
  return `#${part}${part}${part}`;
}

function short(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}

function escape(content: string): string {
  const safe = content.replace(/[\p{Cc}\p{Cs}\ufffe\uffff]/gu, " ");
  return safe.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
}

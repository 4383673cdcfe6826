import { extentOf, type Mark, type Page, type TextMark } from "../../../src/exchange/paper/page.ts";
import { CAP, MM_PER_PT, textWidth } from "../../../src/exchange/paper/type.ts";

/** The texts of a page in the order they are set. */
export function textsOf(page: Page): TextMark[] {
  return page.marks.filter((mark) => mark.kind === "text");
}

/** All words of a page, one text after the other. */
export function wordsOf(page: Page): string {
  return textsOf(page)
    .map((mark) => mark.text)
    .join(" ");
}

/** Size of the one text that says exactly `words`, points; throws when it is not there. */
export function sizeOf(page: Page, words: string): number {
  const found = textsOf(page).find((mark) => mark.text === words);
  if (!found) throw new Error(`no text "${words}" on page "${page.name}": ${wordsOf(page)}`);
  return found.sizePt;
}

/** Marks that reach beyond their page, in words; rounding of a thousandth of a millimetre is let pass. */
export function overflows(pages: readonly Page[]): string[] {
  return pages.flatMap((page) =>
    page.marks.flatMap((mark) => {
      const { left, top, right, bottom } = extentOf(mark);
      const outside =
        left < -0.001 || top < -0.001 || right > page.widthMm + 0.001 || bottom > page.heightMm + 0.001;
      return outside ? [`${page.name}: ${JSON.stringify(mark).slice(0, 200)}`] : [];
    }),
  );
}

/** Pairs of texts whose capitals print over each other, in words. */
export function collisions(pages: readonly Page[]): string[] {
  return pages.flatMap((page) => {
    const boxes = textsOf(page).map((mark) => ({
      text: mark.text,
      left: mark.x,
      right: mark.x + textWidth(mark.text, mark),
      top: mark.y - CAP * mark.sizePt * MM_PER_PT,
      bottom: mark.y,
    }));
    return boxes.flatMap((a, i) =>
      boxes
        .slice(i + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        .map((b) => `${page.name}: "${a.text}" over "${b.text}"`),
    );
  });
}

/** Texts through whose capitals a straight line or the side of a frame runs, in words; a hair is let pass. */
export function crossings(pages: readonly Page[]): string[] {
  return pages.flatMap((page) => {
    const strokes = page.marks.flatMap(strokesOf);
    return textsOf(page).flatMap((mark) => {
      const left = mark.x + HAIR_MM;
      const right = mark.x + textWidth(mark.text, mark) - HAIR_MM;
      const top = mark.y - CAP * mark.sizePt * MM_PER_PT + HAIR_MM;
      const bottom = mark.y - HAIR_MM;
      const crossed = strokes.some(
        (one) => one.left < right && left < one.right && one.top < bottom && top < one.bottom,
      );
      return crossed ? [`${page.name}: a line through "${mark.text}"`] : [];
    });
  });
}

const HAIR_MM = 0.05;

interface Stroke {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The ink of upright and level lines and of frames; hatches lean. */
function strokesOf(mark: Mark): Stroke[] {
  if (mark.kind === "text") return [];
  const inked = (x1: number, y1: number, x2: number, y2: number, wide: number): Stroke => ({
    left: Math.min(x1, x2) - (x1 === x2 ? wide / 2 : 0),
    right: Math.max(x1, x2) + (x1 === x2 ? wide / 2 : 0),
    top: Math.min(y1, y2) - (y1 === y2 ? wide / 2 : 0),
    bottom: Math.max(y1, y2) + (y1 === y2 ? wide / 2 : 0),
  });
  if (mark.kind === "lines")
    return mark.segments.flatMap(([x1, y1, x2, y2]) =>
      x1 === x2 || y1 === y2 ? [inked(x1, y1, x2, y2, mark.widthMm)] : [],
    );
  const { x, y, w, h, lineMm } = mark;
  if (lineMm === 0) return [];
  return [
    inked(x, y, x + w, y, lineMm),
    inked(x, y + h, x + w, y + h, lineMm),
    inked(x, y, x, y + h, lineMm),
    inked(x + w, y, x + w, y + h, lineMm),
  ];
}

import { extentOf, type Page, type TextMark } from "../../../src/exchange/paper/page.ts";
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

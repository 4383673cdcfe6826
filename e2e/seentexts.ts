import type { Page } from "@playwright/test";

/** What is wrong with the texts on a page, measured by their boxes. */

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A line of text as far as it is in sight, and whether something cuts it without a sign that it goes on. */
interface SeenText extends Box {
  readonly element: Element;
  readonly text: string;
  readonly isCut: boolean;
}

declare global {
  interface Window {
    /** Every line of text of the open dialog, or else of the page. */
    seenTexts(): readonly SeenText[];
  }
}

/** Teaches pages that are opened from now on to find their texts. */
export async function teachTexts(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const hides = (overflow: string): boolean => overflow === "hidden" || overflow === "clip";
    /** Cuts the box of a text by all that it stands in. */
    const within = (element: Element, rect: DOMRect): Box & { readonly isCut: boolean } => {
      let { left, right, top, bottom } = rect;
      let isCut = false;
      for (
        let one: Element | null = element;
        one && one !== document.documentElement;
        one = one.parentElement
      ) {
        const style = getComputedStyle(one);
        if (style.display === "inline" || one instanceof SVGElement) continue;
        if (style.overflowX === "visible" && style.overflowY === "visible") continue;
        const room = one.getBoundingClientRect();
        const isAside = left < room.left - 1 || right > room.right + 1;
        // A line's box has air above and below its letters.
        const isPast = top < room.top - 3 || bottom > room.bottom + 3;
        isCut ||= hides(style.overflowX) && isAside && style.textOverflow !== "ellipsis";
        isCut ||= hides(style.overflowY) && isPast && style.webkitLineClamp === "none";
        left = Math.max(left, room.left);
        right = Math.min(right, room.right);
        top = Math.max(top, room.top);
        bottom = Math.min(bottom, room.bottom);
      }
      return { left, right, top, bottom, isCut };
    };
    window.seenTexts = () => {
      const root = [...document.querySelectorAll("dialog[open]")].at(-1) ?? document.body;
      const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
      const found: SeenText[] = [];
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const element = node.parentElement;
        const text = node.textContent?.trim() ?? "";
        if (!element || text === "" || !element.checkVisibility({ visibilityProperty: true })) continue;
        // Pages of paper are laid out and tested by themselves; what is only for hearing has no place.
        if (element.closest(".unseen, option, script, style, .paper-page, .print-sample")) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        for (const rect of range.getClientRects())
          if (rect.width >= 1 && rect.height >= 1) found.push({ element, text, ...within(element, rect) });
      }
      return found;
    };
  });
}

/** Texts that are cut with no sign that they go on, or that reach out of the window to the side. */
export const cutTexts = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    window
      .seenTexts()
      .filter(({ element }) => getComputedStyle(element.closest("[class]") ?? element).clipPath === "none")
      .filter(
        ({ isCut, left, right, top, bottom }) =>
          isCut || (bottom > top && right > left && (left < -1 || right > window.innerWidth + 1)),
      )
      .map(({ element, text }) => `cut: “${text}” in ${element.parentElement?.className ?? ""}`),
  );

/** Pairs of texts that lie on each other, both in sight. */
export const crossingTexts = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    // What takes no presses is passed over by the question what lies at a point.
    const all = new CSSStyleSheet();
    all.replaceSync("*, *::before, *::after { pointer-events: auto !important; }");
    document.adoptedStyleSheets.push(all);
    const hasGround = (one: Element): boolean =>
      !/, 0(\.\d+)?\)$|^transparent$|\/ 0(\.\d+)?\)$/.test(getComputedStyle(one).backgroundColor);
    /** What is above an element at a point, with no ground between; null where something with a ground covers it. */
    const isSeenAt = (one: Element, x: number, y: number): boolean => {
      const stack = document.elementsFromPoint(x, y);
      const at = stack.findIndex((other) => other === one || one.contains(other));
      return at >= 0 && !stack.slice(0, at).some((other) => hasGround(other) && !other.contains(one));
    };
    const texts = window
      .seenTexts()
      .map((one) => ({
        ...one,
        left: Math.max(one.left, 0),
        right: Math.min(one.right, window.innerWidth),
        top: Math.max(one.top, 0),
        bottom: Math.min(one.bottom, window.innerHeight),
      }))
      .filter(({ left, right, top, bottom }) => right - left > 1 && bottom - top > 1)
      .sort((a, b) => a.left - b.left);
    const found = texts.flatMap((one, i) => {
      const pairs: string[] = [];
      for (const other of texts.slice(i + 1)) {
        if (other.left >= one.right - 2) break;
        const top = Math.max(one.top, other.top);
        const high = Math.min(one.bottom, other.bottom) - top;
        const least = Math.min(one.bottom - one.top, other.bottom - other.top);
        if (one.element === other.element || high < 0.3 * least) continue;
        const x = (other.left + Math.min(one.right, other.right)) / 2;
        const y = top + high / 2;
        if (isSeenAt(one.element, x, y) && isSeenAt(other.element, x, y))
          pairs.push(`on each other: “${one.text}” and “${other.text}”`);
      }
      return pairs;
    });
    document.adoptedStyleSheets.pop();
    return found;
  });

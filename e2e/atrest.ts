import type { Page } from "@playwright/test";

/** The canvases of the day line. */
export const LINE = ".head-stage canvas, .stage canvas, .margin-stage canvas";

/**
 * Until nothing has been painted on these canvases for a while: a glide ends, and where it fits and better places of names come a
 * moment later, on a slow machine much later.
 */
export async function atRest(page: Page, canvases = LINE): Promise<void> {
  await page.evaluate(async (shown) => {
    let before = "";
    let now = "not looked at yet";
    // No function of this has a name: what runs the pictures would mark it by a helper that the page does not have.
    while (now !== before) {
      before = now;
      await new Promise((next) => setTimeout(next, 250));
      now = [...document.querySelectorAll<HTMLCanvasElement>(shown)]
        .map((canvas) => {
          const { data } = canvas.getContext("2d")!.getImageData(0, 0, canvas.width, canvas.height);
          return data.reduce((sum, value) => (Math.imul(sum, 31) + value) | 0, 0);
        })
        .join();
    }
  }, canvases);
}

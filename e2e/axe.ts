import AxeBuilder from "@axe-core/playwright";
import { expect, type Page } from "@playwright/test";

/**
 * Looks for faults once no part of the page is still being fetched, and with every colour where it is gliding to, from now on in this
 * page: halfway from one pair to the next there is less contrast than in either.
 */
export async function axeOn(page: Page): Promise<AxeBuilder> {
  await expect(page.locator(".shell-fetching")).toHaveCount(0);
  await page.evaluate(() => {
    const still = new CSSStyleSheet();
    still.replaceSync("*, *::before, *::after { transition: none !important; }");
    document.adoptedStyleSheets.push(still);
  });
  return new AxeBuilder({ page });
}

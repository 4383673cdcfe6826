import AxeBuilder from "@axe-core/playwright";
import type { Page } from "@playwright/test";

/** Looks for faults with every colour where it is gliding to: halfway from one pair to the next there is less contrast than in either. */
export async function axeOn(page: Page): Promise<AxeBuilder> {
  await page.evaluate(() => {
    for (const one of document.getAnimations()) if (one instanceof CSSTransition) one.finish();
  });
  return new AxeBuilder({ page });
}

import AxeBuilder from "@axe-core/playwright";
import type { Page } from "@playwright/test";

/** Looks for faults once no colour glides any more: halfway from one pair to the next there is less contrast than in either. */
export async function axeOn(page: Page): Promise<AxeBuilder> {
  await page.waitForFunction(() =>
    document
      .getAnimations()
      .every((one) => !(one instanceof CSSTransition && /color|background/.test(one.transitionProperty))),
  );
  return new AxeBuilder({ page });
}

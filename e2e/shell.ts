import type { Locator, Page } from "@playwright/test";

/** The top row as a hand goes through it: its menus open first. */

export type Theme = "light" | "dark" | "dim";

const THEMES: Readonly<Record<Theme, string>> = { light: "Light", dark: "Dark", dim: "Dark room" };

/** Windows that the desk is built for, CSS pixels. */
export const DESK_SIZES = [
  [1024, 768],
  [1280, 720],
  [1440, 900],
  [1920, 1080],
] as const;

/** Chooses a theme. */
export async function setTheme(page: Page, theme: Theme): Promise<void> {
  await page.getByRole("button", { name: "Help and theme" }).click();
  await page.getByRole("button", { name: THEMES[theme], exact: true }).click();
}

/** Goes to a screen: by its button, or where the row has no room for them by the menu of screens. */
export async function goTo(page: Page, screen: string): Promise<void> {
  const nav = page.getByRole("navigation", { name: "Screens" });
  const menu = nav.getByRole("button", { name: /^Screen: / });
  if (await menu.isVisible()) await menu.click();
  await nav.getByRole("button", { name: screen, exact: true }).click();
}

/** Sets how long a pack or mend may search, seconds, and what a pack is for. */
export async function howToPack(page: Page, seconds: number, aim?: string): Promise<void> {
  const menu = page.getByRole("button", { name: "How to pack" });
  await menu.click();
  await page.getByLabel("How long to search").selectOption(String(seconds));
  if (aim !== undefined) await page.getByLabel("What to pack for").selectOption(aim);
  await page.keyboard.press("Escape");
}

/** Mends the broken day. */
export async function mend(page: Page): Promise<void> {
  await page.getByRole("button", { name: "How to pack" }).click();
  await page.getByRole("button", { name: "Mend", exact: true }).click();
}

/** A choice in the corner menu of the ruler, which is open after it. */
export async function clockAndHand(page: Page, name: string): Promise<Locator> {
  await page.getByRole("button", { name: "Clock and hand" }).click();
  return page
    .getByRole("toolbar", { name: "Hand and view" })
    .getByRole("button", { name: new RegExp(`^${name}`) });
}

/** Opens what stands beside the line where the window is too narrow for it and shows a rail. */
export async function openSide(page: Page): Promise<void> {
  const rail = page.getByRole("button", { name: /^Bench \d/, expanded: false });
  if (await rail.isVisible()) await rail.click();
}

import { axeOn } from "./axe.ts";
import { expect, type Page, test } from "@playwright/test";
import { setTheme } from "./shell.ts";

const strip = (page: Page) => page.getByRole("region", { name: "Steps to a packed day" });
const step = (page: Page, name: string) =>
  strip(page).getByRole("button", { name: new RegExp(`^${name}\\.`) });
const lead = (page: Page) => strip(page).locator(".first-steps-lead");
const focused = (page: Page) => page.locator(":focus");

/** What the browser does with Ctrl+V when a spreadsheet's cells are on the clipboard. */
async function paste(page: Page, text: string): Promise<void> {
  await focused(page).evaluate((target, words) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData("text/plain", words);
    target.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
  }, text);
}

async function newPlan(page: Page): Promise<void> {
  await page.goto("./");
  await page.getByRole("button", { name: "Plan file" }).click();
  await page.getByText("New plan", { exact: true }).click();
  await expect(strip(page)).toBeVisible();
}

test("from an empty plan to a packed day, led by the steps, by keys alone", async ({ page }) => {
  await newPlan(page);
  await expect(strip(page).getByRole("status")).toContainText("There is no place to work at yet");
  await lead(page).focus();
  await page.keyboard.press("Enter");
  await expect(focused(page)).toHaveText("Add place");
  await page.keyboard.press("Enter");
  await page.keyboard.type("Rim");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Tab");
  await page.keyboard.type("220");
  await page.keyboard.press("Enter");
  await expect(step(page, "Where")).toHaveAttribute("data-state", "begun");
  await expect(strip(page).getByRole("status")).toContainText("Nobody has given latitude and longitude");
  await lead(page).focus();
  await page.keyboard.press("Enter");
  const inRow = (name: string) => page.getByRole("row", { name: new RegExp(`^${name}`) }).locator(":focus");
  await expect(inRow("Latitude")).toHaveCount(1);
  await page.keyboard.type("72.5 S");
  await page.keyboard.press("Enter");
  await expect(inRow("Longitude")).toHaveCount(1);
  await page.keyboard.type("0");
  await page.keyboard.press("Enter");
  await expect(lead(page)).toHaveText("To the stay");
  await lead(page).focus();
  await page.keyboard.press("Enter");
  await page.keyboard.type("Rim day");
  await page.keyboard.press("Enter");
  await page.keyboard.type("2031-04-05 06:07");
  await page.keyboard.press("Enter");
  await page.keyboard.type("21:00");
  await page.keyboard.press("Enter");
  await expect(step(page, "Where")).toHaveAttribute("data-state", "done");
  await step(page, "Crew").focus();
  await page.keyboard.press("Enter");
  await expect(focused(page)).toHaveText("Two crew, one EVA");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await expect(step(page, "EVAs")).toHaveAttribute("data-state", "done");

  await step(page, "Requests").focus();
  await page.keyboard.press("Enter");
  for (let sort = 0; sort < 5; sort += 1) {
    await page.getByRole("button", { name: "Add a task from a template" }).focus();
    await page.keyboard.press("Enter");
    for (let k = 0; k < sort; k += 1) await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Escape");
  }
  await expect(strip(page).getByRole("status")).toContainText("then press Pack.");
  await lead(page).focus();
  await page.keyboard.press("Enter");
  await expect(strip(page).getByRole("status")).toContainText("No rule is broken at likely durations");
  for (const name of ["Requests", "Pack", "Findings"])
    await expect(step(page, name)).toHaveAttribute("data-state", "done");
  // The suits are still nobody's: paper can be looked at, and is not called ready.
  await expect(step(page, "Paper")).toHaveAttribute("data-state", "begun");
  await expect(strip(page).getByRole("status")).toContainText("values that nobody has given");
  await lead(page).focus();
  await page.keyboard.press("Enter");
  await expect(focused(page)).toHaveText("Print");
});

test("a press on a step shows it, and the button still leads on", async ({ page }) => {
  await newPlan(page);
  await step(page, "Crew").click();
  await expect(strip(page).getByRole("status")).toContainText("Crew and suits.");
  await expect(lead(page)).toHaveText("To site and places");
  // Elsewhere the strip tells of what comes next again.
  await page.getByRole("tab", { name: "Flight rules" }).click();
  await expect(strip(page).getByRole("status")).toContainText("Where and when.");
  await lead(page).click();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Escape");
  await expect(lead(page)).toHaveText("To site and places");
  await lead(page).click();
  // The latitude, which nobody has given yet.
  await expect(focused(page)).toHaveText(/^to be given/);
  await expect(page.getByRole("row", { name: /^Latitude/ }).locator(":focus")).toHaveCount(1);
  // Where it was led to by a pointer, too, the cell that would be written in has a frame.
  await expect(focused(page)).toHaveCSS("outline-style", "solid");
  // Crew was shown already: what comes next is EVAs.
  await expect(lead(page)).toHaveText("To EVAs");
});

test("a must-do task that a pack leaves out is named, and asked about", async ({ page }) => {
  await newPlan(page);
  await lead(page).click();
  // The tables are fetched when they are shown for the first time.
  await expect(focused(page)).toHaveText("Add place");
  await page.keyboard.press("Enter");
  await paste(page, "Far rim\tStation\t900\t0");
  await step(page, "Requests").click();
  await page.getByRole("button", { name: "Add task", exact: true }).click();
  await paste(page, "Task\tMust\tLocation\nNear look\tx\tLander\nFar core\tx\tFar rim");
  await expect(page.getByText("Pasted 6 cells, 1 new row.")).toBeVisible();
  await lead(page).click();
  await expect(strip(page).getByRole("status")).toContainText("Left out: Far core. ");
  await expect(lead(page)).toHaveText("Why not?");
  await lead(page).click();
  await expect(page.getByRole("heading", { name: "Far core" })).toBeVisible();
});

test("every label that the tutorial names is on screen as it is written", async ({ page }) => {
  const seen = new Set<string>();
  const view = async (): Promise<void> => {
    for (const words of await page.evaluate(wordsOnScreen)) seen.add(words);
  };
  await page.goto("./");
  await page.getByRole("button", { name: "Plan file" }).click();
  await view();
  await page.getByText("New plan", { exact: true }).click();
  await view();
  await lead(page).click();
  await view();
  await expect(focused(page)).toHaveText("Add place");
  await page.keyboard.press("Enter");
  await paste(page, "Name\tKind\tEast\tNorth\nFar rim\tStation\t900\t0");
  await lead(page).click();
  await page.keyboard.type("72.5 S");
  await page.keyboard.press("Enter");
  await page.keyboard.type("0");
  await page.keyboard.press("Enter");
  await view();
  await lead(page).click();
  await view();
  await lead(page).click();
  await view();
  await lead(page).click();
  await view();
  await lead(page).click();
  await page.getByRole("button", { name: "Add task", exact: true }).click();
  await paste(
    page,
    "Name\tKind\tMust-do\tWorth\tDuration\tPlace\nNear\tSurvey\tx\t5\t10\tLander\nFar\t\t\t\t\tFar rim",
  );
  await expect(page.getByText(/^Pasted 8 cells, 1 new row\./)).toBeVisible();
  await view();
  await lead(page).click();
  await expect(lead(page)).toHaveText("To paper");
  await view();
  for (const [screen, sign] of [
    ["Odds", "If late"],
    ["Variants", "Keep the day as a variant"],
    ["Paper", "Save as PDF"],
  ] as const) {
    await page.getByRole("button", { name: screen, exact: true }).first().click();
    await expect(page.getByRole("button", { name: sign })).toBeVisible();
    await view();
  }
  await page.keyboard.press("?");
  await expect(page.getByRole("dialog")).toBeVisible();
  await view();

  const text = await (await page.request.get("./tutorial.md")).text();
  const named = [...text.matchAll(/\*\*([^*]+)\*\*/g)].flatMap(([, words = ""]) =>
    words.replace(/\s+/g, " ").split(", "),
  );
  expect(named.length).toBeGreaterThan(30);
  expect(named.filter((words) => !seen.has(words))).toEqual([]);
});

/** The text of every element that is on the page, without that of elements inside it. */
function wordsOnScreen(): string[] {
  const own = (one: Element): string =>
    [...one.childNodes].map((part) => (part.nodeType === Node.TEXT_NODE ? part.textContent : "")).join("");
  return [...document.body.querySelectorAll("*")]
    .filter((one) => one.checkVisibility())
    .map((one) => own(one).trim());
}

test("the steps stay over a reload, are put away for good, and come back from the list", async ({ page }) => {
  await newPlan(page);
  await expect(page.getByText("Saved here")).toBeVisible();
  await page.reload();
  await expect(strip(page)).toBeVisible();
  await strip(page).getByRole("button", { name: "Put away" }).click();
  await expect(strip(page)).toHaveCount(0);
  await page.reload();
  await expect(page.getByRole("button", { name: "Plan file" })).toBeVisible();
  await expect(strip(page)).toHaveCount(0);
  await page.keyboard.press("Control+k");
  await page.getByRole("combobox", { name: "Find a command" }).fill("steps packed");
  await page.keyboard.press("Enter");
  await expect(strip(page)).toBeVisible();
});

for (const theme of ["light", "dark"] as const)
  test(`the steps fit 1280 and 820 pixels without a violation, ${theme}`, async ({ page }) => {
    await newPlan(page);
    await setTheme(page, theme);
    await step(page, "Crew").click();
    for (const width of [1280, 820]) {
      await page.setViewportSize({ width, height: 900 });
      const outside = await strip(page)
        .locator("button, p")
        .evaluateAll((all) =>
          all
            .filter((one) => one.getBoundingClientRect().right > window.innerWidth + 1)
            .map((one) => one.textContent),
        );
      expect(outside).toEqual([]);
      const { violations } = await (await axeOn(page)).analyze();
      expect(violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
    }
  });

test("who opens the program for the first time is told of the ready plan, and how to begin one", async ({
  page,
}) => {
  await page.goto("./");
  const greeting = page.getByRole("region", { name: "First look" });
  await expect(greeting).toContainText("A ready plan is open");
  const answer = await page.request.get(
    new URL((await greeting.getByRole("link").getAttribute("href"))!, page.url()).href,
  );
  expect(await answer.text()).toContain("# ");
  await greeting.getByRole("button", { name: "Begin a plan of your own" }).click();
  await expect(greeting).toHaveCount(0);
  await expect(page.getByRole("region", { name: "Steps to a packed day" })).toBeVisible();
});

import { axeOn } from "./axe.ts";
import { expect, type Page, test } from "@playwright/test";
import { openDay } from "./days.ts";
import { goTo, setTheme } from "./shell.ts";

const rehearsal = (page: Page) => page.locator(".rehearsal");
const press = (page: Page, name: string) =>
  rehearsal(page).getByRole("button", { name, exact: true }).click();
const crew = (page: Page, name: string) => page.getByRole("region", { name, exact: true });

async function begin(page: Page): Promise<void> {
  await openDay(page);
  await goTo(page, "Rehearsal");
  await press(page, "Begin with the day as it stands");
}

test("a trainer calls the day, throws a slip in, has it planned anew and reads the debrief", async ({
  page,
}) => {
  await begin(page);
  await press(page, "I call");
  await press(page, "10 min on");
  await crew(page, "EV1").getByRole("button", { name: "Egress of EVA 1" }).click();
  await expect(page.getByText("EVA 1: egress.")).toBeVisible();
  await press(page, "10 min on");
  await press(page, "10 min on");
  await crew(page, "EV1").getByRole("button", { name: "Begins" }).click();
  await expect(crew(page, "EV1")).toContainText(/Now \d+ First scoop/);
  await page.getByLabel("What happens").selectOption({ label: "An EVA is to be back sooner" });
  await page.getByLabel("in so many minutes from now").fill("75");
  await press(page, "Throw it in");
  const broken = page.getByRole("list", { name: "What would break" });
  await expect(broken).toContainText("EVA 1");
  await press(page, "Mend from here");
  await expect(page.locator(".rehearsal-proposal")).toContainText("0 breaches");
  await expect(page.locator(".rehearsal-proposal")).toContainText(
    /Every must-do done from .+ to .+, everybody home from .+ to .+, worth on average from \d+ to \d+/,
  );
  await press(page, "Take it");
  await expect(broken).toHaveCount(0);
  await expect(crew(page, "EV1")).toContainText(/Now \d+ First scoop/);

  await press(page, "Crew plays by itself");
  const on = rehearsal(page).getByRole("button", { name: "10 min on", exact: true });
  for (let i = 0; i < 20 && (await on.isEnabled()); i += 1) await on.click();
  await expect(page.getByText("The day is over: everybody is back.")).toBeVisible();
  await press(page, "Debrief");
  const scoop = page.getByRole("row", { name: /First scoop/ });
  await expect(scoop).toContainText("done");
  await expect(
    page.getByRole("row").filter({ hasText: "dropped when the day was planned anew" }),
  ).not.toHaveCount(0);
  const file = page.waitForEvent("download");
  await press(page, "Save the debrief as CSV");
  // Of which state of the plan it is stands in its name.
  expect((await file).suggestedFilename()).toMatch(/-[0-9a-f]{8}-debrief\.csv$/);
});

test("everybody outside sees when to start home, and a recall that cannot be met is answered at once", async ({
  page,
}) => {
  await begin(page);
  await press(page, "10 min on");
  for (let i = 0; i < 8; i += 1) await press(page, "10 min on");
  const clock = page.getByRole("region", { name: "Clock" });
  await expect(clock).toContainText(
    /earliest ingress \d+:\d\d if everything is dropped now, latest \d+:\d\d/,
  );
  for (const name of ["EV1", "EV2"])
    await expect(crew(page, name)).toContainText(/Start home by\s*\d+:\d\d in .*set by /);
  // The strips are drawn to their end: no wider than there is room for.
  const strips = page.locator(".rehearsal-strips svg");
  const cutPx = await strips.evaluate(
    (svg) => Number(svg.getAttribute("width")) - svg.getBoundingClientRect().width,
  );
  expect(Math.abs(cutPx)).toBeLessThanOrEqual(1);
  await page.getByLabel("What happens").selectOption({ label: "An EVA is to be back sooner" });
  await page.getByLabel("in so many minutes from now").fill("1");
  await press(page, "Throw it in");
  await expect(clock.getByRole("alert")).toContainText(
    /cannot be inside by \d+:\d\d \(latest ingress\): earliest ingress \d+:\d\d, if everything is dropped now/,
  );
  await expect(crew(page, "EV1")).toContainText(/at once: .* over/);
  // It stands under its clock, not beside the figures of it.
  const red = (await clock.getByRole("alert").boundingBox())!;
  const pet = (await clock.locator(".rehearsal-pets b").first().boundingBox())!;
  expect(red.y).toBeGreaterThanOrEqual(pet.y + pet.height - 2);
});

test("says so where the browser has no room to keep the rehearsal", async ({ page }) => {
  await page.addInitScript(() => {
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (value: unknown, key?: IDBValidKey) {
      if (this.name === "rehearsals") throw new DOMException("full", "QuotaExceededError");
      return put.call(this, value, key);
    };
  });
  await begin(page);
  await expect(page.getByRole("alert")).toContainText("there is no room left in this browser");
  const file = page.waitForEvent("download");
  await press(page, "Save it now");
  expect((await file).suggestedFilename()).toBe("rehearsal.json");
});

test("a rehearsal lasts over a reload, comes from its file, and leaves the plan as it is", async ({
  page,
}) => {
  await begin(page);
  for (let i = 0; i < 4; i += 1) await press(page, "To the next call");
  const shown = await page.locator(".rehearsal-met").innerText();
  const file = page.waitForEvent("download");
  await press(page, "Save as a file");
  const path = await (await file).path();
  await page.reload();
  await goTo(page, "Rehearsal");
  await expect(page.locator(".rehearsal-met")).toHaveText(shown.replace("\n", " "));
  await press(page, "End…");
  await press(page, "End and forget it");
  await page.getByLabel("Open a rehearsal file").setInputFiles(path);
  await expect(page.locator(".rehearsal-met")).toHaveText(shown.replace("\n", " "));
  await goTo(page, "Day");
  await expect(page.getByRole("button", { name: /^Undo/ })).toHaveAttribute("title", "Nothing to undo");
});

test("the clock runs and holds", async ({ page }) => {
  await page.clock.install();
  await begin(page);
  const met = page.locator(".rehearsal-met");
  const before = await met.innerText();
  await press(page, "60 ×");
  await press(page, "Run");
  await expect(met).not.toHaveText(before.replace("\n", " "));
  await press(page, "Hold");
  const held = await met.innerText();
  // A minute of the page's own time, in which a clock that ran would go on by an hour.
  await page.clock.runFor(60_000);
  expect(await met.innerText()).toBe(held);
  await press(page, "Run");
  await page.clock.runFor(2000);
  expect(await met.innerText()).not.toBe(held);
});

for (const theme of ["light", "dark"] as const) {
  test(`nothing stands in the way of anybody in a rehearsal: ${theme}`, async ({ page }) => {
    await begin(page);
    await setTheme(page, theme);
    for (let i = 0; i < 5; i += 1) await press(page, "To the next call");
    await crew(page, "EV1")
      .getByLabel(/the gauge reads/)
      .fill("0.1");
    await crew(page, "EV1").getByRole("button", { name: "Read out" }).click();
    await expect(page.getByText("EV1 reads oxygen 0.1 kg.")).toBeVisible();
    expect((await (await axeOn(page)).analyze()).violations).toEqual([]);
    await press(page, "Debrief");
    expect((await (await axeOn(page)).analyze()).violations).toEqual([]);
  });
}

test("the keyboard has a place from begin to end, and Enter pressed twice forgets nothing", async ({
  page,
}) => {
  await openDay(page);
  await goTo(page, "Rehearsal");
  const begin = page.getByRole("button", { name: "Begin with the day as it stands" });
  await begin.press("Enter");
  await expect(page.getByRole("button", { name: "Run", exact: true })).toBeFocused();
  const end = page.getByRole("button", { name: "End…" });
  await end.press("Enter");
  await page.keyboard.press("Enter");
  await expect(end).toBeFocused();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Escape");
  await expect(end).toBeFocused();
  await end.press("Enter");
  await page.getByRole("button", { name: "End and forget it" }).press("Enter");
  await expect(begin).toBeFocused();
});

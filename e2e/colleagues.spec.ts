import { copyFileSync, readFileSync } from "node:fs";
import { axeOn } from "./axe.ts";
import { expect, type Locator, type Page, test } from "@playwright/test";
import { block, openDay } from "./days.ts";
import { goTo } from "./shell.ts";

/** A plan goes to a colleague, in a browser of their own, and comes back. */

async function details(page: Page, name: string) {
  await block(page, name).first().click();
  await page.getByRole("button", { name: "Details" }).click();
  const part = page.getByRole("region", { name: `Task ${name}` });
  await part.getByText("Comments and sign-off").click();
  return part;
}

async function setWorth(page: Page, task: Locator, worth: string): Promise<void> {
  await task.getByRole("button", { name: /^Worth/ }).click();
  await page.keyboard.press("Control+a");
  await page.keyboard.type(worth);
  await page.keyboard.press("Enter");
}

async function save(page: Page): Promise<string> {
  const download = page.waitForEvent("download");
  await page.keyboard.press("Control+s");
  return (await download).path();
}

test("what two colleagues say and sign goes with the file; a change undoes a sign-off; a clash is taken or left by name", async ({
  page,
  browser,
}, info) => {
  await openDay(page);
  const mine = await details(page, "First scoop");
  await mine.getByLabel("Your name").fill("Ada");
  await mine.getByLabel("Comment", { exact: true }).fill("Is one bag enough?");
  await mine.getByRole("button", { name: "Add comment" }).click();
  await expect(mine.getByRole("list", { name: "Comments on First scoop" })).toContainText(
    "Is one bag enough?",
  );
  await mine.getByRole("button", { name: /^Sign off as it is now/ }).click();
  await expect(mine.getByText(/^Signed by Ada, /)).toBeVisible();
  if (process.env["SHOTS"]) await page.screenshot({ path: `${process.env["SHOTS"]}/said-task.png` });
  const { violations } = await (await axeOn(page)).analyze();
  expect(violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
  const sent = info.outputPath("sent.json");
  copyFileSync(await save(page), sent);

  const context = await browser.newContext({
    serviceWorkers: "block",
    viewport: { width: 1440, height: 900 },
  });
  const other = await context.newPage();
  await other.goto("./");
  await other.getByRole("button", { name: "Plan file" }).click();
  const chooser = other.waitForEvent("filechooser");
  await other.getByRole("button", { name: /^Open file/ }).click();
  await (await chooser).setFiles(sent);
  const theirs = await details(other, "First scoop");
  await expect(theirs).toContainText("Is one bag enough?");
  await theirs.getByLabel("Your name").fill("Bea");
  await theirs.getByRole("checkbox", { name: "Settled" }).check();
  await setWorth(other, theirs, "77");
  await expect(theirs.getByText(/^Changed since it was signed by Ada, /)).toBeVisible();
  const back = await save(other);
  const file = JSON.parse(readFileSync(back, "utf8")) as { hands: { name: string }[] };
  expect(file.hands.map(({ name }) => name)).toEqual(["Ada", "Bea"]);

  await setWorth(page, mine, "33");
  await expect(mine.getByText(/^Changed since it was signed by Ada, /)).toBeVisible();
  await page.getByRole("button", { name: "Plan file" }).click();
  await page.getByRole("button", { name: "Plans in this browser" }).click();
  await page.getByLabel("Merge a file").setInputFiles({
    name: "back.json",
    mimeType: "application/json",
    buffer: readFileSync(back),
  });
  const part = page.getByRole("region", { name: "Merge a file" });
  await expect(part).toContainText("Changed in the file, last saved by Bea");
  await expect(part.getByRole("region", { name: "Changed in the file" })).toContainText(
    "Comment by Ada, Settled: no to yes.",
  );
  const clash = part.getByRole("group", { name: /^Task \d+ First scoop$/ });
  if (process.env["SHOTS"]) await page.screenshot({ path: `${process.env["SHOTS"]}/said-merge.png` });
  await clash.getByRole("radio", { name: /^Take Bea’s/ }).check();
  await part.getByRole("button", { name: "Merge", exact: true }).click();
  await expect(mine.getByRole("button", { name: /^Worth/ })).toContainText("77");
  await expect(mine.getByRole("checkbox", { name: "Settled" })).toBeChecked();
  await context.close();
});

test("a rule is signed in setup and a page on paper; a later change of the plan says so at both", async ({
  page,
}) => {
  await openDay(page);
  await goTo(page, "Setup");
  await page.getByRole("tab", { name: /^Flight rules/ }).click();
  const rules = page.getByRole("region", { name: "Comments and sign-off of rules" });
  await rules.getByLabel("Comment on or sign off a rule").selectOption("walkback");
  await rules.getByText("Comments and sign-off", { exact: false }).first().click();
  await rules.getByLabel("Your name").fill("Ada");
  await rules.getByRole("button", { name: /^Sign off as it is now/ }).click();
  await expect(rules.getByText(/^Signed by Ada, /)).toBeVisible();
  if (process.env["SHOTS"]) await page.screenshot({ path: `${process.env["SHOTS"]}/said-rules.png` });
  await goTo(page, "Paper");
  const remarks = page.locator("details.remarks");
  await remarks.getByText("Comments and sign-off").click();
  await remarks.getByRole("button", { name: /^Sign off as it is now/ }).click();
  await expect(remarks.getByText(/^Signed by Ada, /)).toBeVisible();
  if (process.env["SHOTS"]) await page.screenshot({ path: `${process.env["SHOTS"]}/said-paper.png` });
  await goTo(page, "Day");
  await block(page, "First scoop").focus();
  await page.keyboard.press("]");
  await goTo(page, "Paper");
  await remarks.getByText("Comments and sign-off").click();
  await expect(remarks.getByText(/^The plan has changed since this was signed by Ada, /)).toBeVisible();
  const { violations } = await (await axeOn(page)).analyze();
  expect(violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
});

test("a plan is kept to a file on disk: saved again without a question, also after the page was loaded anew, and never over a stranger's", async ({
  page,
}) => {
  // The origin's own file system has the same handles as the machine's, and no picker to press.
  await page.addInitScript(() => {
    const file = async () =>
      (await navigator.storage.getDirectory()).getFileHandle("kept.json", { create: true });
    window.showSaveFilePicker = file;
    window.showOpenFilePicker = async () => [await file()];
  });
  // Nothing, as long as there is no file; asked again where a save takes the file's place while it is read.
  const inFile = () =>
    page.evaluate(async () => {
      const folder = await navigator.storage.getDirectory();
      for (;;) {
        try {
          return await (await (await folder.getFileHandle("kept.json")).getFile()).text();
        } catch (fault) {
          const name = fault instanceof DOMException ? fault.name : "";
          if (name === "NotFoundError") return "";
          if (name !== "NotReadableError") throw fault;
        }
      }
    });
  await openDay(page);
  await page.getByRole("button", { name: "Plan file" }).click();
  await page.getByRole("button", { name: "Keep to a file on disk…" }).click();
  await expect.poll(inFile).toContain('"title": "Lintel Flat, a first outing"');
  const first = await inFile();
  await block(page, "First scoop").focus();
  await page.keyboard.press("]");
  await page.keyboard.press("Control+s");
  await expect.poll(inFile).not.toBe(first);
  await page.goto("./");
  await expect(block(page, "First scoop")).toBeVisible();
  await block(page, "First scoop").focus();
  await page.keyboard.press("]");
  const second = await inFile();
  await page.keyboard.press("Control+s");
  await expect.poll(inFile).not.toBe(second);
  await page.evaluate(async () => {
    const folder = await navigator.storage.getDirectory();
    const writer = await (await folder.getFileHandle("kept.json")).createWritable();
    await writer.write("somebody else's");
    await writer.close();
  });
  await page.keyboard.press("Control+s");
  const asked = page.getByRole("dialog", { name: "kept.json holds something else" });
  await expect(asked).toBeVisible();
  expect(await inFile()).toBe("somebody else's");
  if (process.env["SHOTS"]) await page.screenshot({ path: `${process.env["SHOTS"]}/changed-file.png` });
  const { violations } = await (await axeOn(page)).analyze();
  expect(violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
  await asked.getByRole("button", { name: "Write over it" }).click();
  await expect.poll(inFile).toContain('"title": "Lintel Flat, a first outing"');
});

import { mkdirSync, readFileSync } from "node:fs";
import { type Browser, chromium, type Page } from "@playwright/test";
import { atRest } from "../../e2e/atrest.ts";
import { BROWSER_SWITCHES, browserPath } from "../../e2e/browser.ts";
import { mindPainting, type PaintedText, paintedTexts, textsOnTexts } from "../../e2e/painted.ts";
import { setTheme, type Theme } from "../../e2e/shell.ts";
import { parseText } from "../../src/plan/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { served } from "./served.ts";

/**
 * What the day screen can be read for at a glance, measured on what a real browser paints of the production build: whole names of the
 * tasks in sight, the crew's lanes as a share of the window's height, lanes out of sight, texts that lie on texts, that something covers in
 * part, or that a line runs through; at every EVA, the whole stay, with a task chosen and while one is dragged. Options: `--plans demo,large`,
 * `--sizes 1280x720,...`, `--themes light,dark,dim`, `--views "eva 1,stay,drag"`, `--list` to name what is missing or wrong, `--pictures DIR`, `--built`.
 */
export async function run(args: string[]): Promise<void> {
  const names = (valueOf(args, "--plans") ?? "demo,large").split(",");
  const sizes = (valueOf(args, "--sizes") ?? "1024x768,1280x720,1440x900,1920x1080").split(",");
  const themes = (valueOf(args, "--themes") ?? "light").split(",") as Theme[];
  const only = valueOf(args, "--views")?.split(",") ?? null;
  const how = { list: args.includes("--list"), pictures: valueOf(args, "--pictures"), only };
  if (how.pictures !== null) mkdirSync(how.pictures, { recursive: true });
  const build = args.includes("--built") ? null : [];
  await served({ out: OUT, port: PORT, build }, async () => {
    const browser = await chromium.launch({ executablePath: await browserPath(), args: BROWSER_SWITCHES });
    console.log("plan   size      theme view   names whole  lanes %  hidden  on texts  covered  struck");
    for (const name of names) {
      const body = packed(name);
      for (const size of sizes)
        for (const theme of themes) await measured(browser, { name, body, size, theme }, how);
    }
    await browser.close();
  });
}

const OUT = "node_modules/.bench/glance";
const PORT = 4177;
/** How long names are given to find better places, ms. */
const PATIENCE_MS = 5000;
/** How long each plan is packed: counted, so that the same day is looked at each time. */
const ITERATIONS: Readonly<Record<string, number>> = { demo: 20_000, large: 4000, small: 400 };

/** The ready plan with a day packed into it. */
function packed(name: string): string {
  const read = parseText(readFileSync(`public/plans/${name}.json`, "utf8"));
  if (!read.ok) throw new Error(`${name} is no plan`);
  const packing = packRun(read.value, { seed: 1, iterations: ITERATIONS[name] ?? 4000, clock: () => 0 });
  while (packing.step(50)) continue;
  return JSON.stringify({ ...read.value, schedule: packing.best() });
}

interface Opened {
  readonly name: string;
  readonly body: string;
  readonly size: string;
  readonly theme: Theme;
}

/** Opens the day at a size and prints a row for each view of it. */
async function measured(
  browser: Browser,
  { name, body, size, theme }: Opened,
  how: { readonly list: boolean; readonly pictures: string | null; readonly only: readonly string[] | null },
): Promise<void> {
  const [width = 0, height = 0] = size.split("x").map(Number);
  const page = await browser.newPage({ viewport: { width, height } });
  await mindPainting(page);
  await page.route(`**/plans/${name}.json`, (route) =>
    route.fulfill({ body, contentType: "application/json" }),
  );
  await page.goto(`http://127.0.0.1:${PORT}/?plan=${name}`);
  await page.locator(".stage .block").first().waitFor();
  await setTheme(page, theme);
  await page.keyboard.press("Escape");
  // What is known of chances stands on the line too.
  await page.locator('.chance-figure[data-current="true"][data-days="2000"]').nth(2).waitFor();
  const evas = (JSON.parse(body) as { readonly evas: readonly unknown[] }).evas.length;
  const views = [...Array.from({ length: evas }, (_, i) => `eva ${i + 1}`), "stay", "chosen", "drag"];
  for (const view of views.filter((one) => how.only?.includes(one) ?? true)) {
    await show(page, view);
    await atRest(page);
    const texts = await paintedTexts(page);
    const found = await lookedAt(page, texts);
    console.log(row([name, size, theme, view], found));
    if (how.list) list(found);
    if (how.pictures !== null)
      await page.screenshot({
        path: `${how.pictures}/${name}-${size}-${theme}-${view.replace(" ", "")}.png`,
      });
    await page.keyboard.press("Escape");
    await page.mouse.up();
  }
  await page.close();
}

/** Brings a view about: an EVA, the stay, or the first EVA with a task chosen or in hand. */
async function show(page: Page, view: string): Promise<void> {
  await page.mouse.move(2, 2);
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.keyboard.press(view === "stay" ? "0" : (/\d/.exec(view)?.[0] ?? "1"));
  // Better places of names are looked for when nothing else is to be done.
  await page.waitForTimeout(PATIENCE_MS);
  await atRest(page);
  if (view !== "chosen" && view !== "drag") return;
  const blocks = page.locator(".stage .block");
  const box = await blocks.nth(Math.floor((await blocks.count()) / 3)).boundingBox();
  if (!box) throw new Error("no task is shown");
  const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  if (view === "drag") {
    await page.mouse.move(at.x + 70, at.y + 8, { steps: 4 });
    await page.locator(".cost").waitFor();
  } else {
    await page.mouse.up();
    await page.mouse.move(2, 2);
  }
}

interface Found {
  readonly tasks: number;
  readonly missing: readonly string[];
  readonly share: number;
  readonly hidden: number;
  readonly pairs: ReturnType<typeof textsOnTexts>;
  readonly covered: readonly PaintedText[];
  readonly struck: readonly PaintedText[];
}

async function lookedAt(page: Page, texts: readonly PaintedText[]): Promise<Found> {
  const { blocks, lanes, held } = await page.evaluate(() => {
    const scroller = document.querySelector(".lanes")!.getBoundingClientRect();
    const boxOf = (element: Element) => {
      const { left, top, right, bottom } = element.getBoundingClientRect();
      return { x0: left, y0: top, x1: right, y1: bottom };
    };
    const stage = boxOf(document.querySelector(".stage")!);
    return {
      held: [...document.querySelectorAll(".block.held")].map(boxOf),
      blocks: [...document.querySelectorAll<HTMLElement>(".stage .block")].map((one) => ({
        ...boxOf(one),
        task: one.dataset["task"]!,
      })),
      lanes: [...document.querySelectorAll<HTMLElement>(".gutter-lane")].map((one) => ({
        crew: one.querySelector(".gutter-name") !== null,
        seen: Math.max(0, Math.min(boxOf(one).y1, scroller.bottom) - Math.max(boxOf(one).y0, scroller.top)),
        tall: one.offsetHeight,
        left: stage.x0,
        right: stage.x1,
      })),
    };
  });
  const [{ left, right } = { left: 0, right: Infinity }] = lanes;
  const inSight = blocks.filter((one) => Math.min(one.x1, right) - Math.max(one.x0, left) >= 2);
  const named = await page.evaluate(() => {
    const tasks = new Map<string, string>();
    for (const one of document.querySelectorAll<HTMLElement>(".stage .block"))
      tasks.set(
        one.dataset["task"]!,
        one.getAttribute("aria-label")!.split(/, (?:sampling|deployment|survey|upkeep), /)[0]!,
      );
    return [...tasks];
  });
  const names = new Map(named);
  const asked = [...new Set(inSight.map(({ task }) => task))];
  const missing = missingOf(
    asked,
    names,
    inSight,
    texts.filter(({ covered }) => covered < 0.05),
  );
  const height = page.viewportSize()?.height ?? 1;
  const pairs = textsOnTexts(texts);
  const free = (one: PaintedText): boolean =>
    held.every((box) => one.x1 < box.x0 || one.x0 > box.x1 || one.y1 < box.y0 || one.y0 > box.y1);
  return {
    tasks: asked.length,
    missing,
    share: lanes.reduce((sum, one) => sum + (one.crew ? one.seen : 0), 0) / height,
    hidden: lanes.filter((one) => one.seen < one.tall - 1).length,
    pairs: pairs.filter(([a, b]) => free(a) && free(b)),
    covered: texts.filter((one) => one.covered >= 0.05 && one.covered < 0.95 && free(one)),
    struck: texts.filter((one) => one.covered < 0.95 && one.struck > 0 && free(one)),
  };
}

/** Tasks in sight whose whole name is written nowhere: in one piece, or word upon word in their block. */
function missingOf(
  asked: readonly string[],
  names: ReadonlyMap<string, string>,
  blocks: readonly (Pick<PaintedText, "x0" | "y0" | "x1" | "y1"> & { readonly task: string })[],
  texts: readonly PaintedText[],
): readonly string[] {
  const left = [...texts];
  const open = asked.filter((task) => {
    const name = names.get(task) ?? task;
    const own = blocks.filter((one) => one.task === task);
    const box = {
      x0: Math.min(...own.map((one) => one.x0)) - 1,
      x1: Math.max(...own.map((one) => one.x1)) + 1,
      y0: Math.min(...own.map((one) => one.y0)),
      y1: Math.max(...own.map((one) => one.y1)),
    };
    const lines = left
      .filter(({ x0, x1, y0, y1 }) => x0 >= box.x0 && x1 <= box.x1 && y0 >= box.y0 && y1 <= box.y1)
      .toSorted((a, b) => Math.round((a.y0 - b.y0) / 6) || a.x0 - b.x0)
      .map(({ text }) => text);
    return !lines.join(" ").includes(name);
  });
  // Many tasks of a made plan have the same name: each needs one of its own.
  return open.filter((task) => {
    const name = names.get(task) ?? task;
    const at = left.findIndex(({ text }) => text === name || text.replace(/^\d+ /, "") === name);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

function row(head: readonly string[], found: Found): string {
  const [plan = "", size = "", theme = "", view = ""] = head;
  return [
    plan.padEnd(6),
    size.padEnd(9),
    theme.padEnd(5),
    view.padEnd(6),
    `${found.tasks - found.missing.length} of ${found.tasks}`.padStart(11),
    (100 * found.share).toFixed(1).padStart(8),
    String(found.hidden).padStart(7),
    String(found.pairs.length).padStart(9),
    String(found.covered.length).padStart(8),
    String(found.struck.length).padStart(7),
  ].join(" ");
}

function list({ missing, pairs, covered, struck }: Found): void {
  const at = ({ text, x0, y0 }: PaintedText): string => `"${text}" (${Math.round(x0)}, ${Math.round(y0)})`;
  for (const task of missing) console.log(`    no name: ${task}`);
  for (const [a, b] of pairs) console.log(`    ${at(a)} on ${at(b)}`);
  for (const one of covered) console.log(`    covered in part: ${at(one)} ${one.covered.toFixed(2)}`);
  for (const one of struck) console.log(`    struck: ${at(one)}`);
}

function valueOf(args: readonly string[], name: string): string | null {
  const at = args.indexOf(name);
  return at < 0 ? null : (args[at + 1] ?? null);
}

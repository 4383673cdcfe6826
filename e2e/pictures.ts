import { spawn } from "node:child_process";
import { mkdirSync, readFileSync } from "node:fs";
import { type Browser, chromium, type Page } from "@playwright/test";
import { parseText } from "../src/plan/index.ts";
import { packRun } from "../src/solver/index.ts";
import { atRest } from "./atrest.ts";
import { BROWSER_SWITCHES, browserPath } from "./browser.ts";
import { goTo } from "./shell.ts";

/**
 * Renews the pictures in `public/pictures`: every screen with the demo plan, packed with a counted number of
 * iterations so that the same day is pictured each time, in both themes. `npm run pictures [-- NAME...]`; needs a built app.
 */
const PORT = 4175;
const OUT = "public/pictures";
const ITERATIONS = 60_000;

type Theme = "light" | "dark";

/** What is done on a page with the packed day before it is pictured. */
type Scene = (page: Page) => Promise<void>;

/** Keeps the day as packed and with two tasks fewer, and takes a third off the line, so that both differ from the day. */
async function keepTwo(page: Page): Promise<void> {
  const keep = async (name: string): Promise<void> => {
    await goTo(page, "Variants");
    await page.getByRole("textbox", { name: "Name of the variant" }).fill(name);
    await page.keyboard.press("Enter");
    await goTo(page, "Day");
    await page.locator(".stage .block").first().waitFor();
  };
  const breaches = page
    .getByRole("region", { name: "Score" })
    .getByRole("group", { name: /^breach/ })
    .locator(".figure");
  const optional = page.locator('.stage .block:not([aria-label*="must do"])');
  let next = 0;
  /** Benches the next optional task that the day is sound without. */
  const benchOne = async (): Promise<void> => {
    for (; next < (await optional.count()); next += 1) {
      await optional.nth(next).click();
      await page.keyboard.press("b");
      await atRest(page);
      if ((await breaches.innerText()) === "0") return;
      await page.keyboard.press("Control+z");
      await atRest(page);
    }
  };
  await keep("As packed");
  await benchOne();
  await benchOne();
  await keep("Two tasks fewer");
  await benchOne();
  await goTo(page, "Variants");
  await page.getByText("being worked out…").first().waitFor({ state: "detached", timeout: 120_000 });
}

const SCENES: Readonly<Record<string, { readonly themes: readonly Theme[]; readonly scene: Scene }>> = {
  day: { themes: ["light", "dark"], scene: async () => undefined },
  drag: {
    themes: ["dark"],
    async scene(page) {
      const box = await page.locator('.stage .block[aria-label*="must do"]').nth(2).boundingBox();
      if (!box) throw new Error("no task is shown");
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.mouse.down();
      await page.mouse.move(box.x + 90, box.y + box.height / 2, { steps: 6 });
      await atRest(page);
    },
  },
  why: {
    themes: ["light", "dark"],
    async scene(page) {
      await page
        .locator(".bench")
        .getByRole("button", { name: /^Why not\?/ })
        .first()
        .click();
      await page
        .getByText(/changes? tried/)
        .first()
        .waitFor({ timeout: 60_000 });
      await page.getByRole("button", { name: "Stop" }).waitFor({ state: "detached", timeout: 60_000 });
    },
  },
  odds: {
    themes: ["light", "dark"],
    async scene(page) {
      await goTo(page, "Odds");
      await page.locator(".odds-band svg").first().waitFor({ timeout: 60_000 });
      // Until every part is there.
      await page.getByText("Of the day as it stands.").waitFor({ timeout: 120_000 });
    },
  },
  rehearsal: {
    themes: ["light", "dark"],
    async scene(page) {
      await goTo(page, "Rehearsal");
      await page.getByRole("button", { name: "Begin with the day as it stands" }).click();
      for (let i = 0; i < 12; i += 1) await page.getByRole("button", { name: "To the next call" }).click();
      await page.getByRole("button", { name: "10 min on" }).click();
      await page.getByLabel("What happens").selectOption({ label: "A task takes longer" });
      await page.getByLabel("by so many minutes").fill("40");
      await page.getByRole("button", { name: "Throw it in" }).click();
      await page.locator(".rehearsal").evaluate((element) => element.scrollTo(0, 0));
    },
  },
  late: {
    themes: ["light", "dark"],
    async scene(page) {
      await goTo(page, "Odds");
      await page.getByRole("button", { name: "If late", exact: true }).click();
      await page.locator(".shed-cell").first().waitFor({ timeout: 120_000 });
      await page.getByText("Not through yet").waitFor({ state: "detached", timeout: 600_000 });
    },
  },
  variants: { themes: ["light", "dark"], scene: keepTwo },
  setup: { themes: ["light", "dark"], scene: (page) => goTo(page, "Setup") },
  paper: {
    themes: ["light", "dark"],
    async scene(page) {
      await goTo(page, "Paper");
      await page.locator(".paper-page").first().waitFor({ timeout: 120_000 });
      await page
        .getByText("The late pages are being worked out")
        .waitFor({ state: "detached", timeout: 600_000 });
    },
  },
  "site-far": { themes: ["light"], scene: (page) => site(page, "All EVAs", 14_400, null, 0) },
  site: { themes: ["dark"], scene: (page) => site(page, "All EVAs", 14_400, null, 0) },
  "site-mid": { themes: ["light"], scene: (page) => site(page, "EVA 2", 59_400, "Osier, shoulder", 3) },
  "site-near": { themes: ["light"], scene: (page) => site(page, "EVA 1", 21_000, "Sonde pad", 8) },
};

/** The map at a minute, with the ways of an EVA, about a place, so many steps closer. */
async function site(
  page: Page,
  eva: string,
  minuteS: number,
  place: string | null,
  closer: number,
): Promise<void> {
  await goTo(page, "Site");
  await page.getByRole("slider").first().fill(String(minuteS));
  await page.getByRole("button", { name: eva, exact: true }).click();
  if (place !== null) await page.getByRole("button", { name: place, exact: true }).first().click();
  await atRest(page, "canvas");
  // The wheel goes closer about the chosen place.
  if (place !== null) {
    const ring = await page.locator(".map-chosen").boundingBox();
    if (ring) await page.mouse.move(ring.x + ring.width / 2, ring.y + ring.height / 2);
  }
  for (let i = 0; i < closer; i += 1) await page.mouse.wheel(0, -150);
  await atRest(page, "canvas");
}

function packedDemo(): string {
  const read = parseText(readFileSync("public/plans/demo.json", "utf8"));
  if (!read.ok) throw new Error("the demo plan is no plan");
  const packing = packRun(read.value, {
    seed: 1,
    iterations: ITERATIONS,
    seconds: 600,
    clock: () => performance.now() / 1000,
  });
  while (packing.step(50)) continue;
  return JSON.stringify({ ...read.value, schedule: packing.best() });
}

async function picture(
  browser: Browser,
  body: string,
  name: string,
  theme: Theme,
  scene: Scene,
): Promise<void> {
  const big = name.startsWith("site") || name === "drag";
  const page = await browser.newPage({
    viewport: big ? { width: 1440, height: 900 } : { width: 1360, height: 850 },
    colorScheme: theme,
  });
  await page.route("**/plans/demo.json", (route) => route.fulfill({ body, contentType: "application/json" }));
  await page.goto(`http://127.0.0.1:${PORT}/?plan=demo`);
  await page.locator(".stage .block").first().waitFor();
  await page.getByText("Saved here").waitFor();
  // What the day says of chances is part of it.
  await page
    .locator('.chance-figure[data-current="true"][data-days="2000"]')
    .nth(2)
    .waitFor({ timeout: 120_000 });
  await scene(page);
  await atRest(page, "canvas");
  await page.screenshot({ path: `${OUT}/${name}-${theme}.png` });
  await page.close();
}

const wanted = process.argv.slice(2);
mkdirSync(OUT, { recursive: true });
const server = spawn(
  process.execPath,
  ["node_modules/vite/bin/vite.js", "preview", "--host", "127.0.0.1", "--port", String(PORT), "--strictPort"],
  { stdio: "ignore" },
);
try {
  for (let tries = 0; tries < 100; tries += 1) {
    if (
      await fetch(`http://127.0.0.1:${PORT}/`).then(
        (answer) => answer.ok,
        () => false,
      )
    )
      break;
    await new Promise((next) => setTimeout(next, 100));
  }
  const body = packedDemo();
  const browser = await chromium.launch({ executablePath: await browserPath(), args: BROWSER_SWITCHES });
  for (const [name, { themes, scene }] of Object.entries(SCENES)) {
    if (wanted.length > 0 && !wanted.includes(name)) continue;
    for (const theme of themes) {
      await picture(browser, body, name, theme, scene);
      console.log(`${name}-${theme}`);
    }
  }
  await browser.close();
} finally {
  server.kill();
}

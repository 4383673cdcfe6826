import { readFileSync } from "node:fs";
import { chromium } from "@playwright/test";
import { facesOnDisk } from "../src/cli/faces.ts";
import { sheetFacts } from "../src/cli/sheetfacts.ts";
import { FACE_NAMES, faceFile, FACES } from "../src/exchange/paper/faces/files.ts";
import { booklets, fileMs, SHEET_KINDS, sheetPaper, stampOf } from "../src/exchange/index.ts";
import { toSvgPages } from "../src/exchange/paper/svg.ts";
import { keysOf } from "../src/kernel/index.ts";
import { parseText, type Plan } from "../src/plan/index.ts";
import { packRun } from "../src/solver/index.ts";
import { makeCore } from "../src/engine/core.ts";
import { BROWSER_SWITCHES, browserPath } from "./browser.ts";

/**
 * Renews `public/pictures/paper.png`: pages of the demo plan's cuff checklists and the first sheet of every kind, all on one picture.
 * `npm run pictures:paper`. The day is packed with a counted number of iterations, so that the same one is pictured each time.
 */
const OUT = "public/pictures/paper.png";
const ITERATIONS = 20_000;
/** Cuff pages that are pictured, of the first booklet. */
const CUFF_PAGES = 8;

function packedDemo(): Plan {
  const read = parseText(readFileSync("public/plans/demo.json", "utf8"));
  if (!read.ok) throw new Error("the demo plan is no plan");
  const clock = (): number => performance.now() / 1000;
  const run = packRun(read.value, { seed: 1, iterations: ITERATIONS, seconds: 600, clock });
  while (run.step(50)) continue;
  return { ...read.value, schedule: run.best() };
}

async function pagesOf(plan: Plan): Promise<string[]> {
  const streams = { out: () => undefined, err: () => undefined, stop: new AbortController().signal };
  const facts = await sheetFacts(plan, ["reasons", "walks", "rehearsal"], streams);
  const lateTable = await makeCore(() => performance.now() / 1000).lateTable(plan, {
    schedule: plan.schedule,
  });
  const cuffs = booklets(plan, facts.verdict, { day: facts.day, lateTable });
  // Printed, for the picture, when the plan begins: the same day gives the same picture.
  const stamp = stampOf(plan, facts.verdict, fileMs(plan));
  const sheets = keysOf(SHEET_KINDS).map((kind) => {
    const paper = sheetPaper(kind, { ...facts, lateTable }, stamp, { paper: "a4" });
    return { ...paper, pages: paper.pages.slice(0, 1) };
  });
  return [
    ...toSvgPages({ ...cuffs, pages: cuffs.pages.slice(0, CUFF_PAGES) }),
    ...sheets.flatMap(toSvgPages),
  ];
}

/** The faces of paper for a page that no server gives them to. */
async function faceRules(): Promise<string> {
  const rules = await Promise.all(
    FACE_NAMES.map(async (name) => {
      const { family, weight } = FACES[name];
      const data = Buffer.from(await facesOnDisk(faceFile(name, "latin"))).toString("base64");
      return `@font-face{font-family:"${family}";font-weight:${weight};src:url(data:font/woff;base64,${data})}`;
    }),
  );
  return rules.join("");
}

const pages = await pagesOf(packedDemo());
const style =
  "body{margin:0;padding:16px;background:#888;display:flex;flex-wrap:wrap;gap:16px;align-items:flex-start;width:2000px}" +
  "svg{flex:none;zoom:.62;background:#fff}";
const html = `<!doctype html><style>${await faceRules()}${style}</style>${pages.join("")}`;
const browser = await chromium.launch({ executablePath: await browserPath(), args: BROWSER_SWITCHES });
const page = await browser.newPage({ viewport: { width: 2032, height: 1200 } });
await page.setContent(html);
await page.evaluate(() => document.fonts.ready);
await page.screenshot({ path: OUT, fullPage: true });
await browser.close();
console.log(`${pages.length} pages on ${OUT}`);

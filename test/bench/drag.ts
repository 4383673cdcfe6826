import { readFileSync } from "node:fs";
import { chromium, type CDPSession, type Page } from "@playwright/test";
import { BROWSER_SWITCHES, browserPath } from "../../e2e/browser.ts";
import { parseText } from "../../src/plan/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { served } from "./served.ts";
import { type Frame, framesOf, gapsOf, type Input, rasterMsOf } from "./frames.ts";

/**
 * How quick the day line is in the hand: a task is dragged, the ground is dragged and the wheel is turned by a real
 * browser's own pointer, on the production build, an input a frame. Of each frame are told, in milliseconds: the page's
 * scripting and all of the main thread's work (scripting, style, layout, paint, and drawing canvases) in processor time,
 * whatever else the machine does; and the time on the wall from the input to the frame that shows it, which a busy
 * machine lengthens. Options: `--frames N` (200), `--plan NAME` (demo and large), `--built` to use the build that is
 * there, `--profile` to list the functions that took longest, `--raster` to tell the part that a graphics card would
 * take, `--slide` to drag with the others sliding, `--days DIR` to take packed days `NAME.json` from there,
 * `--tasks N` to drag N tasks spread over what is shown instead of one (what is dragged matters), `--pace` to give
 * the inputs inside the page instead, one an animation frame, and to tell how many frames a second it keeps up with.
 */
export async function run(args: string[]): Promise<void> {
  const frames = Number(valueOf(args, "--frames") ?? 200);
  const only = valueOf(args, "--plan");
  const plans = only === null ? ["demo", "large"] : [only];
  // A profile names functions, so they must keep their names.
  const plain = args.includes("--profile") ? ["--minify", "false"] : [];
  await served({ out: OUT, port: PORT, build: args.includes("--built") ? null : plain }, async () => {
    const browser = await chromium.launch({ executablePath: await browserPath(), args: BROWSER_SWITCHES });
    if (args.includes("--pace")) {
      console.log(
        "plan   does tasks placed    shown  frames/s   ms from frame to frame: median   95 %  worst",
      );
    }
    const figures = "median  95 %  worst ";
    const raster = args.includes("--raster") ? " raster" : "";
    if (!args.includes("--pace"))
      console.log(
        `                                 scripting            main thread          input to frame (wall)   mean of a frame`,
      );
    if (!args.includes("--pace"))
      console.log(
        `plan   does tasks placed    shown ${figures} ${figures} ${figures}  style layout${raster}  ms`,
      );
    for (const plan of plans) {
      const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
      await prepared(page, plan, valueOf(args, "--days"));
      const tasks = valueOf(args, "--tasks");
      if (tasks === null) {
        for (const view of ["eva", "stay"] as const)
          for (const gesture of GESTURES)
            if (view === "eva" || gesture === "drag" || gesture === "zoom")
              console.log(await measured(page, plan, { view, gesture, share: 1 / 3 }, frames, args));
      } else {
        for (const view of ["eva", "stay"] as const)
          for (let k = 0; k < Number(tasks); k += 1) {
            const share = (k + 0.5) / Number(tasks);
            console.log(await measured(page, plan, { view, gesture: "drag", share }, frames, args));
          }
      }
      await page.close();
    }
    await browser.close();
  });
}

const OUT = "node_modules/.bench/drag";
const PORT = 4174;
/** How long the day is packed before it is dragged in, seconds. */
const PACK_S = 3;

/** Opens the plan with a packed day on it, so that there is a full line to drag in. */
async function prepared(page: Page, name: string, days: string | null): Promise<void> {
  const body = days === null ? packed(name) : readFileSync(`${days}/${name}.json`, "utf8");
  await page.route(`**/plans/${name}.json`, (route) =>
    route.fulfill({ body, contentType: "application/json" }),
  );
  await page.goto(`http://127.0.0.1:${PORT}/?plan=${name}`);
  await page.locator(".stage .block").first().waitFor();
  await page.waitForTimeout(1500);
}

/** The ready plan's file with the best day that a few seconds of packing find. */
function packed(name: string): string {
  const read = parseText(readFileSync(`public/plans/${name}.json`, "utf8"));
  if (!read.ok) throw new Error(`${name} is no plan`);
  const packing = packRun(read.value, { seed: 1, seconds: PACK_S, clock: () => performance.now() / 1000 });
  while (packing.step(50)) continue;
  return JSON.stringify({ ...read.value, schedule: packing.best() });
}

/** What is done: nothing (moves beside the line, for what measuring itself takes), a task dragged, the ground dragged, the wheel turned. */
const GESTURES = ["none", "drag", "pan", "zoom"] as const;
type Gesture = (typeof GESTURES)[number];

/** What is measured: over what, which gesture, and which of the tasks shown is dragged, as a share of their number. */
interface Case {
  readonly view: "eva" | "stay";
  readonly gesture: Gesture;
  readonly share: number;
}

/** Shows an EVA or the stay, makes the gesture for so many frames, takes it back, and tells what a frame took. */
async function measured(
  page: Page,
  plan: string,
  { view, gesture, share }: Case,
  frames: number,
  args: readonly string[],
): Promise<string> {
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.keyboard.press(view === "eva" ? "1" : "0");
  await page.waitForTimeout(500);
  const shown = await page.locator(".stage .block").count();
  const { input, at, name } = await taken(page, gesture, share, args.includes("--slide"));
  const facts = await page.locator(".score-name", { hasText: " of " }).first().innerText();
  const [, placed = "?", total = "?"] = /(\d+) of (\d+)/.exec(facts) ?? [];
  const what = [
    plan.padEnd(6),
    gesture.padEnd(4),
    total.padStart(5),
    placed.padStart(6),
    `${shown} ${view}`.padStart(8),
  ];
  if (args.includes("--pace")) {
    const gaps = await gapsOf(page, frames, { gesture: gesture === "none" ? null : gesture, at });
    await released(page);
    const rate = 1000 / (gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length);
    return [...what, rate.toFixed(1).padStart(9), " ".repeat(31), ...row(gaps), name].join(" ");
  }
  const profile = args.includes("--profile") ? await profiling(page) : null;
  const list = await framesOf(page, frames, input);
  if (profile) await report(profile);
  const raster = args.includes("--raster") ? await rasterMsOf(page, Math.ceil(frames / 3), input) : null;
  await released(page);
  const mean = (of: (one: Frame) => number): string =>
    (list.reduce((sum, one) => sum + of(one), 0) / list.length).toFixed(1).padStart(6);
  return [
    ...what,
    ...row(list.map((one) => one.scriptMs)),
    ...row(list.map((one) => one.threadMs)),
    ...row(list.map((one) => one.wallMs)),
    mean((one) => one.styleMs),
    mean((one) => one.layoutMs),
    ...(raster === null ? [] : [raster.toFixed(1).padStart(6)]),
    name,
  ].join(" ");
}

/** Takes the gesture back. */
async function released(page: Page): Promise<void> {
  await page.keyboard.press("Escape");
  await page.keyboard.up("Shift");
  await page.mouse.up();
}

/** A gesture that has begun: how it goes on, and about which point of the page. */
interface Begun {
  readonly input: Input;
  readonly at: { readonly x: number; readonly y: number };
  /** What is dragged, where a task is. */
  readonly name: string;
}

/** Begins the gesture in the middle of what is shown. */
async function taken(page: Page, gesture: Gesture, share: number, sliding: boolean): Promise<Begun> {
  const stage = await page.locator(".stage").boundingBox();
  if (!stage) throw new Error("no line is shown");
  const middle = stage.x + stage.width / 2;
  if (gesture === "none") {
    const at = { x: middle, y: 20 };
    return { at, name: "", input: (i) => page.mouse.move(at.x + 140 * Math.sin(i / 17), at.y) };
  }
  if (gesture === "zoom") {
    const at = { x: middle, y: stage.y + 60 };
    await page.mouse.move(at.x, at.y);
    return { at, name: "", input: (i) => page.mouse.wheel(0, 60 * Math.cos(i / 9)) };
  }
  if (gesture === "pan") {
    // Just below the top of the first lane there is nothing but ground.
    const at = { x: middle, y: stage.y + 3 };
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    return { at, name: "", input: (i) => page.mouse.move(at.x + 140 * Math.sin(i / 17), at.y) };
  }
  const blocks = page.locator(".stage .block");
  const block = blocks.nth(Math.floor((await blocks.count()) * share));
  const name = (await block.getAttribute("aria-label")) ?? (await block.innerText());
  const box = await block.boundingBox();
  if (!box) throw new Error("no task is shown");
  const at = { x: box.x + box.width / 2 + 12, y: box.y + box.height / 2 };
  await page.mouse.move(at.x - 12, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x, at.y, { steps: 3 });
  await page.locator(".cost").waitFor();
  if (sliding) await page.keyboard.down("Shift");
  // The bands where it fits come a moment after it was taken; from then on they are drawn in every frame.
  await page.waitForTimeout(700);
  // Near an edge of the line the window moves by itself, several frames an input.
  const about = {
    x: Math.min(Math.max(at.x, stage.x + INSIDE_PX), stage.x + stage.width - INSIDE_PX),
    y: at.y,
  };
  await page.mouse.move(about.x, about.y, { steps: 3 });
  return {
    at: about,
    name: name.slice(0, 60),
    input: (i) => page.mouse.move(about.x + 140 * Math.sin(i / 17), about.y + 30 * Math.sin(i / 41)),
  };
}

/** How far from the line's edges a drag goes to and fro about, pixels. */
const INSIDE_PX = 200;

async function profiling(page: Page): Promise<CDPSession> {
  const session = await page.context().newCDPSession(page);
  await session.send("Profiler.enable");
  await session.send("Profiler.setSamplingInterval", { interval: 200 });
  await session.send("Profiler.start");
  return session;
}

/** The functions that were on top of the stack most often. */
async function report(session: CDPSession): Promise<void> {
  const { profile } = await session.send("Profiler.stop");
  const own = new Map<string, number>();
  const nodes = new Map(profile.nodes.map((node) => [node.id, node]));
  const all = profile.samples?.length ?? 0;
  for (const id of profile.samples ?? []) {
    const frame = nodes.get(id)?.callFrame;
    const name = frame
      ? `${frame.functionName || "(anonymous)"} ${frame.lineNumber}:${frame.columnNumber}`
      : "?";
    own.set(name, (own.get(name) ?? 0) + 1);
  }
  const most = [...own].sort((a, b) => b[1] - a[1]).slice(0, 25);
  for (const [name, count] of most)
    console.log(`  ${((100 * count) / all).toFixed(1).padStart(5)} % ${name}`);
  await session.detach();
}

function row(list: number[]): string[] {
  const sorted = list.toSorted((a, b) => a - b);
  const at = (part: number): number =>
    sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))] ?? NaN;
  return [at(0.5), at(0.95), at(1)].map((ms) => ms.toFixed(1).padStart(6));
}

function valueOf(args: readonly string[], name: string): string | null {
  const at = args.indexOf(name);
  return at < 0 ? null : (args[at + 1] ?? null);
}

import type { Page } from "@playwright/test";

/** What one frame costs, milliseconds: parts of the main thread's processor time, and the time on the wall. */
export interface Frame {
  readonly scriptMs: number;
  readonly threadMs: number;
  readonly wallMs: number;
  readonly styleMs: number;
  readonly layoutMs: number;
}

/** Asks for input number `i`: a move of the pointer or a turn of the wheel. */
export type Input = (i: number) => Promise<void>;

/** The first frames still compile what they run. */
const WARM_UP = 10;

/** Gives so many inputs, one a frame, and reads the browser's own counters after each. */
export async function framesOf(page: Page, frames: number, input: Input): Promise<readonly Frame[]> {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  await page.evaluate(() => {
    const taken = { inputMs: 0 };
    Object.assign(window, { frameBench: taken });
    for (const type of ["pointermove", "wheel"])
      window.addEventListener(type, (event) => (taken.inputMs = event.timeStamp), true);
  });
  const counters = async (): Promise<ReadonlyMap<string, number>> => {
    const { metrics } = await session.send("Performance.getMetrics");
    return new Map(metrics.map(({ name, value }) => [name, value * 1000]));
  };
  const taken: Frame[] = [];
  for (let i = 0; i < frames; i += 1) {
    const before = await counters();
    await input(i);
    const wallMs = await frameAfter(page);
    const after = await counters();
    const by = (name: string): number => (after.get(name) ?? 0) - (before.get(name) ?? 0);
    taken.push({
      scriptMs: by("ScriptDuration"),
      threadMs: by("TaskDuration"),
      styleMs: by("RecalcStyleDuration"),
      layoutMs: by("LayoutDuration"),
      wallMs,
    });
  }
  await session.detach();
  return taken.slice(WARM_UP);
}

/** What is done in a paced run, and where the pointer begins, pixels of the page. */
export interface Paced {
  readonly gesture: "drag" | "pan" | "zoom" | null;
  readonly at: { readonly x: number; readonly y: number };
}

/** A gesture has followed when this part of the inputs at least has shown something new: starts go by the plan's grid. */
const FOLLOWED_PART = 0.1;

/**
 * Gives so many inputs inside the page, one an animation frame, where the gesture has begun: moves of the pointer, or turns
 * of the wheel; the times from frame to frame, milliseconds. Throws when the gesture did not follow: of a drag the plumb lines,
 * else the window in the strip of the whole stay, which are drawn in every frame.
 */
export async function gapsOf(page: Page, frames: number, { gesture, at }: Paced): Promise<number[]> {
  const { gaps, shown } = await page.evaluate(
    async ({ count, kind, at, warmUp }) => {
      const times: number[] = [];
      const seen = new Set<string>();
      const follows = kind === "drag" ? ".plumb" : ".overview-window";
      for (let i = 0; i <= count; i += 1) {
        times.push(await new Promise<number>((next) => requestAnimationFrame(next)));
        // As it is written: asked for where it lies, the page would be laid out for the answer.
        seen.add([...document.querySelectorAll<HTMLElement>(follows)].map((one) => one.style.cssText).join());
        const target = document.elementFromPoint(at.x, at.y) ?? document.body;
        const more = {
          bubbles: true,
          cancelable: true,
          clientX: at.x + 140 * Math.sin(i / 17),
          clientY: at.y,
        };
        if (kind === "zoom")
          target.dispatchEvent(new WheelEvent("wheel", { ...more, deltaY: 60 * Math.cos(i / 9) }));
        else if (kind !== null)
          target.dispatchEvent(
            new PointerEvent("pointermove", {
              ...more,
              pointerId: 1,
              isPrimary: true,
              buttons: 1,
              pointerType: "mouse",
            }),
          );
      }
      return { gaps: times.slice(warmUp + 1).map((ms, k) => ms - times[warmUp + k]!), shown: seen.size };
    },
    { count: frames, kind: gesture, at, warmUp: WARM_UP },
  );
  if (gesture !== null && shown < FOLLOWED_PART * frames)
    throw new Error(`the ${gesture} did not follow: ${frames} inputs showed ${shown} places`);
  return gaps;
}

/** Waits for the frame that shows the last input; milliseconds from the input to it. */
async function frameAfter(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((done) =>
        requestAnimationFrame(() => {
          const { inputMs } = (window as unknown as { frameBench: { inputMs: number } }).frameBench;
          const channel = new MessageChannel();
          channel.port1.onmessage = () => done(performance.now() - inputMs);
          channel.port2.postMessage(0);
        }),
      ),
  );
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args: { readonly name?: string };
}

/**
 * Main-thread time a frame that goes into turning canvases into pixels, milliseconds: what a graphics card does where
 * there is one. From the browser's trace, whose own writing is in it, so it is at most this.
 */
export async function rasterMsOf(page: Page, frames: number, input: Input): Promise<number> {
  for (let i = 0; i < WARM_UP; i += 1) {
    await input(i);
    await frameAfter(page);
  }
  const browser = page.context().browser();
  if (!browser) throw new Error("the page has no browser of its own");
  const session = await browser.newBrowserCDPSession();
  const events: TraceEvent[] = [];
  session.on("Tracing.dataCollected", ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  const includedCategories = ["cc", "blink", "disabled-by-default-skia", "skia"];
  await session.send("Tracing.start", { transferMode: "ReportEvents", traceConfig: { includedCategories } });
  for (let i = WARM_UP; i < WARM_UP + frames; i += 1) {
    await input(i);
    await frameAfter(page);
  }
  const complete = new Promise<void>((done) => session.on("Tracing.tracingComplete", () => done()));
  await session.send("Tracing.end");
  await complete;
  await session.detach();
  const mains = new Set(
    events
      .filter((one) => one.name === "thread_name" && one.args.name === "CrRendererMain")
      .map((one) => `${one.pid} ${one.tid}`),
  );
  const raster = events
    .filter((one) => one.ph === "X" && mains.has(`${one.pid} ${one.tid}`))
    .filter((one) => /SkCanvas::|ProduceCanvasResource/.test(one.name))
    .toSorted((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0));
  let sumUs = 0;
  let untilUs = 0;
  // One inside another is counted once.
  for (const one of raster) {
    if (one.ts < untilUs) continue;
    sumUs += one.tdur ?? one.dur ?? 0;
    untilUs = one.ts + (one.dur ?? 0);
  }
  return sumUs / 1000 / frames;
}

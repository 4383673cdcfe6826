import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../src/check/index.ts";
import { type Archive, browserArchive, createDesk, type Desk } from "../../../src/session/index.ts";
import type { Claim, Pen, Windows, Word } from "../../../src/session/shelf/windows.ts";
import { freshShelf, HandClock, HandEngine, smallInput, stored } from "../bench.ts";

/** The windows of one browser in this thread: pens go to who asked first, words to all others. */
class Browser {
  private readonly queues = new Map<string, Claim[]>();
  private readonly ears: { window: object; heard: (word: Word) => void }[] = [];

  window(): Windows {
    const window = {};
    return {
      exclusive: true,
      lastOpen: () => null,
      setLastOpen: () => undefined,
      claim: (what, on) => this.claim(window, what, on),
      isHeld: (what) => Promise.resolve((this.queues.get(what) ?? []).length > 0),
      tell: (word) => this.tell(window, word),
      listen: (heard) => this.ears.push({ window, heard }),
    };
  }

  private tell(from: object, word: Word): void {
    for (const { window, heard } of this.ears) if (window !== from) queueMicrotask(() => heard(word));
  }

  private claim(window: object, what: string, on: Claim): Pen {
    const queue = this.queues.get(what) ?? [];
    this.queues.set(what, queue);
    queue.push(on);
    if (queue[0] === on) on.has();
    const leave = (): void => {
      const had = queue[0] === on;
      queue.splice(queue.indexOf(on), 1);
      if (had) queue[0]?.has();
    };
    return {
      take: () => this.tell(window, { what, kind: "hand over" }),
      pass: () => {
        if (queue[0] !== on) return;
        on.lost();
        leave();
        queue.push(on);
      },
      letGo: leave,
    };
  }
}

/** A window of `browser` on the shelf `archive`, with what was open last. */
async function open(browser: Browser, archive: Archive): Promise<{ desk: Desk; clock: HandClock }> {
  const clock = new HandClock();
  let ids = 0;
  const name = `w${Math.floor(performance.now() * 1e4)}`;
  const desk = createDesk({
    engine: new HandEngine(),
    judgeFor,
    archive,
    windows: browser.window(),
    clock,
    newId: () => `${name}-${(ids += 1)}`,
    readyText: () => Promise.reject(new Error("none")),
  });
  const restoring = desk.restore();
  // Who waits for the pen in vain opens without it.
  for (let turn = 0; turn < 20; turn += 1) {
    await stored();
    clock.moveOn(100);
  }
  await restoring;
  return { desk, clock };
}

const title = ({ state }: Desk): string => state.getState().plan.title;
const rename = (desk: Desk, to: string) => desk.edit("Rename", () => ({ title: to }));

async function twoWindows() {
  const browser = new Browser();
  const archive = browserArchive(freshShelf());
  const one = await open(browser, archive);
  one.desk.open(JSON.stringify(smallInput));
  await one.desk.saveNow();
  await stored();
  const other = await open(browser, archive);
  return { browser, archive, one, other };
}

describe("two windows on one plan", () => {
  it("one writes, the other follows with its history, and changes nothing with a word", async () => {
    const { one, other, archive } = await twoWindows();
    expect(one.desk.state.getState().writing).toBe("here");
    expect(other.desk.state.getState().writing).toBe("elsewhere");
    rename(one.desk, "From the first");
    await one.desk.saveNow();
    await stored();
    expect(title(other.desk)).toBe("From the first");
    expect(other.desk.state.getState().history).toEqual(one.desk.state.getState().history);
    rename(other.desk, "From the second");
    expect(other.desk.undo()).toBeNull();
    expect(title(other.desk)).toBe("From the first");
    const told = other.desk.state.getState().notices.map((one) => one.text);
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(/being written in another window.*Take it over.*copy/);
    expect(await archive.readQuarantine()).toEqual([]);
  });

  it("the other takes over what was changed last, and the first one follows", async () => {
    const { one, other, archive } = await twoWindows();
    rename(one.desk, "Just now");
    other.desk.takeOver();
    await stored();
    await stored();
    expect(other.desk.state.getState().writing).toBe("here");
    expect(one.desk.state.getState().writing).toBe("elsewhere");
    expect(title(other.desk)).toBe("Just now");
    rename(other.desk, "From the second");
    await other.desk.saveNow();
    await stored();
    expect(title(one.desk)).toBe("From the second");
    expect(other.desk.undo()).toBe("Rename");
    expect(other.desk.undo()).toBe("Rename");
    expect(title(other.desk)).toBe("A small day");
    expect(await archive.readQuarantine()).toEqual([]);
  });

  it("the other writes by itself once the first one opens another plan", async () => {
    const { one, other } = await twoWindows();
    rename(one.desk, "Last word");
    one.desk.newPlan();
    await one.desk.saveNow();
    await stored();
    await stored();
    expect(other.desk.state.getState().writing).toBe("here");
    expect(title(other.desk)).toBe("Last word");
    expect(other.desk.state.getState().notices.at(-1)?.text).toMatch(/writes the plan now/);
  });

  it("a plan that is open in one is neither renamed nor put into the bin in another", async () => {
    const { one, other } = await twoWindows();
    const { slot } = one.desk.state.getState();
    other.desk.newPlan();
    await other.desk.saveNow();
    expect(await other.desk.binPlan(slot, true)).toMatch(/open in another window/);
    expect((await other.desk.renamePlan(slot, "Mine")).ok).toBe(false);
    one.desk.newPlan();
    await one.desk.saveNow();
    await stored();
    expect(await other.desk.binPlan(slot, true)).toBeNull();
  });

  it("what a window had not saved when it lost the pen is kept as a state", async () => {
    const browser = new Browser();
    const shelf = browserArchive(freshShelf());
    let stuck = false;
    const one = await open(browser, {
      ...shelf,
      writePlan: (...given) => (stuck ? Promise.reject(new Error("stuck")) : shelf.writePlan(...given)),
    });
    one.desk.open(JSON.stringify(smallInput));
    await one.desk.saveNow();
    const other = await open(browser, shelf);
    stuck = true;
    rename(one.desk, "Not saved");
    other.desk.takeOver();
    await stored();
    await stored();
    expect(title(other.desk)).toBe("A small day");
    const states = await other.desk.statesOf(other.desk.state.getState().slot);
    expect(states[0]).toMatchObject({ kind: "left" });
    expect((await other.desk.planOf({ state: states[0]!.key }))?.title).toBe("Not saved");
  });
});

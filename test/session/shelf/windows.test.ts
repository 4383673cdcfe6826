import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../src/check/index.ts";
import { createSession, type Session } from "../../../src/session/index.ts";
import type { Archive } from "../../../src/session/shelf/records.ts";
import { browserArchive } from "../../../src/session/shelf/archive.ts";
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
      isTaken: (what) => Promise.resolve((this.queues.get(what) ?? []).length > 0),
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
async function open(browser: Browser, archive: Archive): Promise<{ session: Session; clock: HandClock }> {
  const clock = new HandClock();
  let ids = 0;
  const name = `w${Math.floor(performance.now() * 1e4)}`;
  const session = createSession({
    engine: new HandEngine(),
    judgeFor,
    archive,
    windows: browser.window(),
    clock,
    newId: () => `${name}-${(ids += 1)}`,
    readyText: () => Promise.reject(new Error("none")),
  });
  const restoring = session.restore();
  // Who waits for the pen in vain opens without it.
  for (let turn = 0; turn < 20; turn += 1) {
    await stored();
    clock.moveOn(100);
  }
  await restoring;
  return { session, clock };
}

const title = ({ state }: Session): string => state.getState().plan.title;
const rename = (session: Session, to: string) => session.edit("Rename", () => ({ title: to }));

async function twoWindows() {
  const browser = new Browser();
  const archive = browserArchive(freshShelf());
  const one = await open(browser, archive);
  one.session.open(JSON.stringify(smallInput));
  await one.session.saveNow();
  await stored();
  const other = await open(browser, archive);
  return { browser, archive, one, other };
}

describe("two windows on one plan", () => {
  it("one writes, the other follows with its history, and changes nothing with a word", async () => {
    const { one, other, archive } = await twoWindows();
    expect(one.session.state.getState().writing).toBe("here");
    expect(other.session.state.getState().writing).toBe("elsewhere");
    rename(one.session, "From the first");
    await one.session.saveNow();
    await stored();
    expect(title(other.session)).toBe("From the first");
    expect(other.session.state.getState().history).toEqual(one.session.state.getState().history);
    rename(other.session, "From the second");
    expect(other.session.undo()).toBeNull();
    expect(title(other.session)).toBe("From the first");
    const told = other.session.state.getState().notices.map((one) => one.text);
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(/being written in another window.*Take it over.*copy/);
    expect(await archive.readQuarantine()).toEqual([]);
  });

  it("the other takes over what was changed last, and the first one follows", async () => {
    const { one, other, archive } = await twoWindows();
    rename(one.session, "Just now");
    other.session.takeOver();
    await stored();
    await stored();
    expect(other.session.state.getState().writing).toBe("here");
    expect(one.session.state.getState().writing).toBe("elsewhere");
    expect(title(other.session)).toBe("Just now");
    rename(other.session, "From the second");
    await other.session.saveNow();
    await stored();
    expect(title(one.session)).toBe("From the second");
    expect(other.session.undo()).toBe("Rename");
    expect(other.session.undo()).toBe("Rename");
    expect(title(other.session)).toBe("A small day");
    expect(await archive.readQuarantine()).toEqual([]);
  });

  it("the other writes by itself once the first one opens another plan", async () => {
    const { one, other } = await twoWindows();
    rename(one.session, "Last word");
    one.session.newPlan();
    await one.session.saveNow();
    await stored();
    await stored();
    expect(other.session.state.getState().writing).toBe("here");
    expect(title(other.session)).toBe("Last word");
    expect(other.session.state.getState().notices.at(-1)?.text).toMatch(/writes the plan now/);
  });

  it("a plan that is open in one is neither renamed nor put into the bin in another", async () => {
    const { one, other } = await twoWindows();
    const { slot } = one.session.state.getState();
    other.session.newPlan();
    await other.session.saveNow();
    expect(await other.session.binPlan(slot, true)).toMatch(/open in another window/);
    expect((await other.session.renamePlan(slot, "Mine")).ok).toBe(false);
    one.session.newPlan();
    await one.session.saveNow();
    await stored();
    expect(await other.session.binPlan(slot, true)).toBeNull();
  });

  it("what a window had not saved when it lost the pen is kept as a state", async () => {
    const browser = new Browser();
    const shelf = browserArchive(freshShelf());
    let stuck = false;
    const one = await open(browser, {
      ...shelf,
      writePlan: (...given) => (stuck ? Promise.reject(new Error("stuck")) : shelf.writePlan(...given)),
    });
    one.session.open(JSON.stringify(smallInput));
    await one.session.saveNow();
    const other = await open(browser, shelf);
    stuck = true;
    rename(one.session, "Not saved");
    other.session.takeOver();
    await stored();
    await stored();
    expect(title(other.session)).toBe("A small day");
    const states = await other.session.statesOf(other.session.state.getState().slot);
    expect(states[0]).toMatchObject({ kind: "left" });
    expect((await other.session.planOf({ state: states[0]!.key }))?.title).toBe("Not saved");
  });
});

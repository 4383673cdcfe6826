import { beforeEach, describe, expect, it } from "vitest";
import type { MendReport, PackReport } from "../../src/answers/index.ts";
import { judgeFor } from "../../src/check/index.ts";
import { printingRun } from "../../src/exchange/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import type { PackOptions } from "../../src/engine/calls.ts";
import { duration } from "../../src/kernel/index.ts";
import { glanceRun } from "../../src/solver/simulate/index.ts";
import { mend } from "../solver/mended.ts";
import { isOver } from "../../src/session/index.ts";
import { rehearsalWork, type RehearsalPorts } from "../../src/session/rehearsing.ts";
import type { Session, RehearsalWork } from "../../src/session/index.ts";
import { at, task, tinyPlan } from "../check/tinyPlan.ts";
import { walksOf } from "../../src/terrain/index.ts";

const plan = tinyPlan({
  tasks: [task("x", "a", { worth: 5 }), task("y", "b", { worth: 3 }), task("z", "a", { worth: 2 })],
  // a is 300 s out and egress work takes 600 s: egress at 2100, ingress complete at 7200.
  placements: [at("x", 3000), at("y", 5400), at("z", 3000, ["ev2"])],
});

/** A machine's clock that a test moves by hand. */
class Hand {
  ms = 0;
  private readonly waiting: { atMs: number; run: () => void }[] = [];
  nowMs = (): number => this.ms;
  after = (ms: number, run: () => void): (() => void) => {
    const one = { atMs: this.ms + ms, run };
    this.waiting.push(one);
    return () => void this.waiting.splice(this.waiting.indexOf(one), this.waiting.includes(one) ? 1 : 0);
  };
  move(ms: number): void {
    const endMs = this.ms + ms;
    for (;;) {
      const next = this.waiting.filter((one) => one.atMs <= endMs).toSorted((a, b) => a.atMs - b.atMs)[0];
      if (!next) break;
      this.waiting.splice(this.waiting.indexOf(next), 1);
      this.ms = next.atMs;
      next.run();
    }
    this.ms = endMs;
  }
}

let hand: Hand;
let memory: Map<string, string>;
/** The rehearsal in the browser's store. */
let kept: { text: string; clock: { calls: number; nowS: number } | null } | null;
let windows: RehearsalPorts["windows"];
let room: number;
let asked: number[];
let packed: (plan: Plan, options: PackOptions) => Promise<PackReport>;
let mended: (plan: Plan, schedule: Schedule) => Promise<MendReport>;

function work(open: Plan = plan): RehearsalWork {
  const session = {
    state: { getState: () => ({ plan: open, verdict: judgeFor(open)(open.schedule) }) },
    chancesOf: (day: { plan: Plan; schedule: Schedule }) => {
      const run = glanceRun(day.plan, day.schedule, 200, () => 0);
      while (run.step(1));
      return Promise.resolve(run.report());
    },
  } as unknown as Session;
  return rehearsalWork(session, {
    engine: {
      mend: (of, { schedule }) => mended(of, schedule),
      printed: (of, { fromS }) => {
        const run = printingRun(of, { fromS, clock: () => 0 });
        while (run.step(1));
        asked.push(fromS ?? 0);
        return Promise.resolve(run.day());
      },
      pack: (of, options) => packed(of, options),
    },
    judgeFor,
    clock: hand,
    walksOf,
    archive: {
      readRehearsal: () => Promise.resolve(kept),
      writeRehearsal: (text) => {
        if (text !== null && text.length > room)
          return Promise.reject(new DOMException("full", "QuotaExceededError"));
        kept = text === null ? null : { text, clock: null };
        return Promise.resolve();
      },
      writeClock: (clock) => {
        if (kept) kept = { ...kept, clock };
        return Promise.resolve();
      },
    },
    windows,
    memory: {
      get: (key) => memory.get(key) ?? null,
      set: (key, value) => {
        memory.set(key, value);
        return true;
      },
    },
  });
}

/** Lets what waits for the store run. */
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

const nowS = (of: RehearsalWork): number => of.state.getState().day!.rehearsal.nowS;

beforeEach(() => {
  hand = new Hand();
  memory = new Map();
  kept = null;
  windows = undefined;
  room = Infinity;
  asked = [];
  packed = () => Promise.reject(new Error("nobody packs here"));
  mended = (of, schedule) => {
    const { schedule: found, changes } = mend(of, schedule, { seed: 1, iterations: 20, clock: () => 0 });
    return Promise.resolve({ schedule: found, changes, verdict: judgeFor(of)(found) });
  };
});

describe("when to leave", () => {
  // x ends at 3600; b is 300 s on, y begins at 5400: leave by 5100 s, 1:25.
  const forY = (of: RehearsalWork) => of.state.getState().leaves?.get("ev1")?.get("y");

  it("is told once the judge has tested it on the day as it goes on, and unknown while that goes on otherwise", async () => {
    const one = work();
    one.begin(1);
    one.setCaller("trainer");
    expect(forY(one)).toBeUndefined();
    hand.move(400);
    await Promise.resolve();
    expect(forY(one)).toEqual({ kind: "by", atS: 5100 });
    one.goOn(900);
    one.call({ kind: "out", eva: "eva-1" });
    one.goOn(900);
    one.call({ kind: "begins", task: "x" });
    expect(nowS(one)).toBe(3000);
    hand.move(400);
    await Promise.resolve();
    expect(forY(one)).toEqual({ kind: "by", atS: 5100 });
    // x will end at 5600: 300 s of way, and y begins at 5900 as soon as they are there.
    one.call({ kind: "longer", task: "x", byS: 2000 });
    expect(one.state.getState().leaves).toBeNull();
    hand.move(399);
    expect(one.state.getState().leaves).toBeNull();
    hand.move(1);
    await Promise.resolve();
    expect(forY(one)).toEqual({ kind: "at once", atS: 5600 });
    expect(asked.at(-1)).toBe(3000);
  });

  it("is asked once while the day goes on the same, however the clock ticks", async () => {
    const one = work();
    one.begin(1);
    one.setCaller("trainer");
    for (let k = 0; k < 5; k += 1) {
      one.goOn(10);
      hand.move(200);
    }
    await Promise.resolve();
    expect(asked).toHaveLength(1);
    one.end();
    expect(one.state.getState().leaves).toBeNull();
  });
});

describe("a rehearsal", () => {
  it("begins a quarter of an hour before egress and runs at the speed that was chosen", () => {
    const one = work();
    one.begin(1);
    expect(nowS(one)).toBe(2100 - 900);
    one.setSpeed(10);
    one.run();
    hand.move(10_000);
    expect(nowS(one)).toBe(1200 + 100);
    one.hold();
    hand.move(60_000);
    expect(nowS(one)).toBe(1300);
  });

  it("is over when everybody is back, with every task done", () => {
    const one = work();
    one.begin(1);
    one.setSpeed(300);
    one.run();
    hand.move(30_000);
    const { day, running } = one.state.getState();
    expect(running).toBe(false);
    expect(isOver(day!)).toBe(true);
    expect(one.debrief()).toMatchObject({ done: 3, planned: 3, worthDone: 10 });
  });

  it("lets the trainer call: nothing begins by itself", () => {
    const one = work();
    one.begin(1);
    one.setCaller("trainer");
    one.goOn(3600);
    expect(one.state.getState().day!.standing.facts.began.size).toBe(0);
    one.call({ kind: "out", eva: "eva-1" });
    one.call({ kind: "begins", task: "x" });
    expect(
      one.state.getState().day!.standing.placements.find((placement) => placement.task === "x"),
    ).toMatchObject({
      state: "under way",
      startS: 4800,
    });
    one.undoCall();
    expect(one.state.getState().day!.standing.facts.began.size).toBe(0);
  });

  it("goes on to the next call", () => {
    const one = work();
    one.begin(1);
    one.goOn("next call");
    expect(one.state.getState().day!.rehearsal.calls).toEqual([{ kind: "out", eva: "eva-1", atS: 2100 }]);
  });

  it("plans anew what is to come, and takes it only when asked to", async () => {
    const one = work();
    one.begin(1);
    one.goOn(3100 - 1200);
    one.call({ kind: "back-by", eva: "eva-1", byS: 5500 as never });
    expect(one.state.getState().day!.verdict.score.breaches).toBeGreaterThan(0);
    await one.planAnew("mend");
    const { proposal } = one.state.getState();
    expect(proposal?.verdict.score.breaches).toBe(0);
    expect(proposal?.changes.length).toBeGreaterThan(0);
    expect(one.state.getState().day!.verdict.score.breaches).toBeGreaterThan(0);
    one.take();
    expect(one.state.getState().proposal).toBeNull();
    expect(one.state.getState().day!.verdict.score.breaches).toBe(0);
  });

  it("takes nothing back that has happened where that broke a rule, and offers what the day then comes to", async () => {
    const apart = tinyPlan({
      tasks: [task("x", "b"), task("y", "b"), task("z", "a", { duration: { likelyS: 900 } })],
      placements: [at("x", 3300), at("y", 3300, ["ev2"]), at("z", 5000)],
      rules: { separation: { greatestM: 500 } },
    });
    const one = work(apart);
    one.begin(1);
    one.setCaller("trainer");
    one.goOn(2100 - nowS(one));
    one.call({ kind: "out", eva: "eva-1" });
    // EV2 turns round halfway, and is 600 m from EV1 when EV1 is at work.
    one.goOn(3000 - nowS(one));
    one.call({ kind: "left-out", task: "y" });
    one.goOn(3300 - nowS(one));
    one.call({ kind: "begins", task: "x" });
    one.goOn(3900 - nowS(one));
    one.call({ kind: "ends", task: "x" });
    one.call({ kind: "back-by", eva: "eva-1", byS: 5400 as never });
    const broken = (): readonly string[] =>
      one.state
        .getState()
        .day!.verdict.findings.filter(({ level }) => level === "breach")
        .map(({ rule }) => rule);
    expect(broken()).toContain("crew-separation");
    expect(broken()).toContain("eva-bounds");
    await one.planAnew("mend");
    const { proposal } = one.state.getState();
    const begun = one.state
      .getState()
      .day!.standing.plan.schedule.placements.filter((spot) => spot.task !== "z");
    expect(begun.length).toBeGreaterThan(1);
    expect(proposal?.schedule.placements).toEqual(expect.arrayContaining(begun));
    expect(proposal?.verdict.score.breaches).toBe(1);
    one.take();
    expect(broken()).toEqual(["crew-separation"]);
  });

  it("packs for the wish, and says the chances of the day as it would go on and of the new plan: what has happened is certain", async () => {
    const spread = {
      ...plan,
      tasks: plan.tasks.map((one) => ({
        ...one,
        must: one.id === "y",
        duration: { ...one.duration, lowS: duration(500), highS: duration(1500) },
      })),
    };
    let aim: PackOptions["aim"];
    // The new plan: y is given up for z alone.
    packed = (of, options) => {
      ({ aim } = options);
      const schedule = { placements: of.schedule.placements.filter(({ task: id }) => id !== "y") };
      return Promise.resolve({ schedule, verdict: judgeFor(of)(schedule) } as PackReport);
    };
    const one = work(spread);
    one.begin(1);
    one.setCaller("trainer");
    one.goOn(900);
    one.call({ kind: "out", eva: "eva-1" });
    one.goOn(900);
    one.call({ kind: "begins", task: "x" });
    await one.planAnew("pack");
    expect(aim).toBe("wish");
    const { chances, givenUp } = one.state.getState().proposal!;
    expect(givenUp).toEqual([]);
    const { before, after } = chances!;
    expect(before.tasks.find((each) => each.task === "x")!.done.count).toBe(before.days);
    expect(before.must.count).toBe(before.days);
    // y is a must-do of the plan: on the bench no day has every one done.
    expect(after.must.count).toBe(0);
    expect(after.meanWorth).toBe(before.meanWorth - 3);
  });

  it("does not take a schedule that is older than what has begun since", async () => {
    const one = work();
    one.begin(1);
    one.goOn(2200 - 1200);
    await one.planAnew("mend");
    mended = () => Promise.reject(new Error("asked once"));
    one.setCaller("trainer");
    one.call({ kind: "begins", task: "x" });
    one.state.getState().proposal!.schedule.placements.splice(0);
    one.take();
    expect(one.state.getState().trouble).toMatch(/older than what has begun/);
    expect(one.state.getState().day!.standing.placements).toHaveLength(3);
  });

  it("says so when no plan keeps what has happened, and why it cannot be kept", async () => {
    mended = (of) =>
      Promise.resolve({
        schedule: { placements: [] },
        changes: [],
        verdict: judgeFor(of)({ placements: [] }),
      });
    const one = work();
    one.begin(1);
    one.goOn(3100 - 1200);
    await one.planAnew("mend");
    expect(one.state.getState()).toMatchObject({ proposal: null, planning: null });
    expect(one.state.getState().trouble).toMatch(
      /^No sound plan was found that keeps what has already happened\./,
    );
  });

  it("holds the rest against what a gauge showed", () => {
    const one = work();
    one.begin(1);
    one.goOn(3100 - 1200);
    const before = one.state.getState().day!.verdict.score.worstMargin;
    one.call({ kind: "reading", crew: "ev1", consumable: "oxygen", left: 0.01 });
    const { day } = one.state.getState();
    expect(day!.reads[0]!.expected).toBeGreaterThan(0.01);
    expect(day!.verdict.score.worstMargin).toBeLessThan(before);
  });

  it("is kept over a reload, with the plan it began with, and opens from a file", async () => {
    const one = work();
    one.begin(5);
    one.goOn(4000);
    one.hold();
    const again = work(tinyPlan({ tasks: [task("other", "a")], placements: [] }));
    expect(again.state.getState().day).toBeNull();
    // The page may be left before its screen was opened.
    again.hold();
    await settled();
    await again.restore();
    expect(again.state.getState().day!.rehearsal).toEqual(one.state.getState().day!.rehearsal);
    expect(again.state.getState().day!.plan.tasks.map((each) => each.id)).toEqual(["x", "y", "z"]);
    const text = one.fileText()!;
    again.end();
    await settled();
    const last = work();
    await last.restore();
    expect(last.state.getState().day).toBeNull();
    expect(again.open(text)).toBeNull();
    expect(again.fileText()).toBe(text);
  });

  it("keeps its clock as it runs, without a call, and takes over what an earlier version kept", async () => {
    const one = work();
    one.begin(5);
    one.setSpeed(10);
    one.run();
    for (let k = 0; k < 20; k += 1) {
      hand.move(250);
      await settled();
    }
    const shown = nowS(one);
    const again = work();
    await again.restore();
    // 5 s of the clock at ten times the speed; kept once a second.
    expect(nowS(again)).toBeGreaterThan(shown - 11);
    expect(nowS(again)).toBeLessThanOrEqual(shown);
    expect(nowS(again)).toBeGreaterThan(nowS(one) - 50);

    const text = one.fileText()!;
    kept = null;
    memory.set("rehearsal", text);
    const older = work();
    await older.restore();
    expect(nowS(older)).toBe(shown);
    await settled();
    expect(memory.get("rehearsal")).toBe("");
    expect(kept).not.toBeNull();
  });

  it("says so where what was kept cannot be read", async () => {
    kept = { text: "{}", clock: null };
    const one = work();
    await one.restore();
    expect(one.state.getState().day).toBeNull();
    expect(one.state.getState().trouble).toMatch(
      /when the page was left cannot be read: it holds no rehearsal/,
    );
  });

  it("takes no call that could not be read again", async () => {
    const one = work();
    one.begin(1);
    expect(one.call({ kind: "note", words: "a".repeat(241) })).toMatch(
      /^This call cannot be written down: words /,
    );
    expect(one.whyNot({ kind: "begins", task: "x" })).toMatch(/^This call begins x before the egress of /);
    expect(one.call({ kind: "note", words: "go" })).toBeNull();
    await settled();
    const again = work();
    await again.restore();
    expect(again.state.getState().day?.rehearsal.calls.map(({ kind }) => kind)).toEqual(["note"]);
  });

  it("says so where there is no room to keep it", async () => {
    const one = work();
    one.begin(5);
    await settled();
    expect(one.state.getState().unkept).toBeNull();
    room = 100;
    one.call({ kind: "note", words: "too much" });
    await settled();
    expect(one.state.getState().unkept).toMatch(/no room left/);
    room = Infinity;
    one.call({ kind: "note", words: "there is room again" });
    await settled();
    expect(one.state.getState().unkept).toBeNull();
    one.hold();
    one.end();
    expect(one.state.getState().unkept).toBeNull();
  });

  it("is kept by one window, and the other says that it keeps nothing", async () => {
    let pass: () => void = () => undefined;
    windows = {
      claim: (_what, on) => {
        pass = () => on.has();
        return { take: () => undefined, pass: () => undefined, letGo: () => undefined };
      },
    };
    const one = work();
    one.begin(5);
    hand.move(400);
    await settled();
    expect(one.state.getState().unkept).toMatch(/Another window of this browser keeps a rehearsal/);
    expect(kept).toBeNull();
    pass();
    await settled();
    expect(one.state.getState().unkept).toBeNull();
    expect(kept).not.toBeNull();
  });

  it("refuses a file whose calls cannot be of its plan, in words, and keeps what is open", () => {
    const one = work();
    one.begin(1);
    const text = one.fileText()!;
    const fileOf = (...calls: object[]): string =>
      JSON.stringify({ ...(JSON.parse(text) as object), nowS: 9000, calls });
    const cases: readonly (readonly [object[], RegExp])[] = [
      [
        [{ atS: 60, kind: "begins", task: "nobody" }],
        /^Call 1, at 0:01 MET, is about the task "nobody", which its plan does not have\.$/,
      ],
      [[{ atS: 60, kind: "in", eva: "eva-1" }], /says ingress of .* before its egress/],
      [
        [
          { atS: 60, kind: "out", eva: "eva-1" },
          { atS: 61, kind: "reading", crew: "ev1", consumable: "oxygen", left: 100_000 },
        ],
        /^Call 2, at 0:01:01 MET, reads 100.000 kg of oxygen from the gauge of .*no suit of the plan holds more than/,
      ],
      [[{ atS: 60, kind: "ends", task: "x" }], /ends .*, which has not begun/],
      [
        [
          { atS: 60, kind: "begins", task: "x" },
          { atS: 90, kind: "begins", task: "x" },
        ],
        /begins .* a second time/,
      ],
      [
        [
          { atS: 90, kind: "note", words: "later" },
          { atS: 60, kind: "note", words: "earlier" },
        ],
        /^Call 2, at 0:01 MET, was made before the one ahead of it, at 0:01:30\.$/,
      ],
      [[{ atS: 9001, kind: "note", words: "ahead" }], /lies behind the rehearsal's clock, which shows 2:30/],
      [
        [
          {
            atS: 60,
            kind: "replanned",
            schedule: { placements: [{ task: "no", eva: "eva-1", crew: ["ev1"], startS: 1 }] },
          },
        ],
        /puts up a schedule that does not fit its plan/,
      ],
    ];
    const before = one.fileText();
    for (const [calls, words] of cases) expect(one.open(fileOf(...calls))).toMatch(words);
    expect(one.open(text.replace('"seed":1', '"seed":1,"seed":2'))).toMatch(
      /^seed stands here a second time/,
    );
    expect(one.fileText()).toBe(before);
    expect(one.open(fileOf({ atS: 60, kind: "out", eva: "eva-1" }))).toBeNull();
  });

  it("takes no call that its own file would be refused for", () => {
    const one = work();
    one.begin(7);
    one.goOn(7_000);
    const before = one.fileText();
    const most = one.state.getState().day!.plan.suits[0]!.oxygenKg;
    const why = one.call({ kind: "reading", crew: "ev1", consumable: "oxygen", left: most + 0.1 });
    expect(why).toMatch(/^This call reads .* of oxygen .* no suit of the plan holds more than .*\.$/);
    expect(one.fileText()).toBe(before);
    expect(one.call({ kind: "reading", crew: "ev1", consumable: "oxygen", left: most })).toBeNull();
    expect(one.open(one.fileText()!)).toBeNull();
  });

  it("opens again whatever a crew that plays by itself has called", () => {
    const one = work();
    one.begin(7);
    one.goOn(20_000);
    expect(one.state.getState().day!.rehearsal.calls.length).toBeGreaterThan(4);
    expect(one.open(one.fileText()!)).toBeNull();
  });

  it("knows how soon and how late each EVA can be inside", () => {
    const one = work();
    one.begin(1);
    expect(one.state.getState().day!.recalls).toEqual([]);
    // At 3100 both are at work on a: home in 300 s, ingress work 600 s.
    one.goOn(3100 - 1200);
    one.call({ kind: "back-by", eva: "eva-1", byS: 3900 as never });
    expect(one.state.getState().day!.recalls).toMatchObject([
      { eva: "eva-1", earliestS: 4000, latest: { ingressS: 3900, by: { kind: "latest-ingress" } } },
    ]);
  });

  it("says why a file is no rehearsal, and keeps what is open", () => {
    const one = work();
    one.begin(1);
    expect(one.open("{")).toBe("it is no JSON text");
    expect(one.open("{}")).toBe("it holds no rehearsal");
    expect(one.open(one.fileText()!.replace('"seed":1', '"seed":-1'))).toMatch(/^seed/);
    expect(one.state.getState().day).not.toBeNull();
  });
});

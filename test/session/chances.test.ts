import { describe, expect, it } from "vitest";
import { instant } from "../../src/kernel/index.ts";
import { chanceChange, chancesNow, chancesStand, MANY_DAYS } from "../../src/session/index.ts";
import { FEW_DAYS } from "../../src/session/chances.ts";
import { chanceOf } from "../../src/solver/simulate/chance.ts";
import { chancesReport } from "./answers.ts";
import { sessionWith, scheduleWith, settled } from "./bench.ts";

const elsewhere = (startS: number) => ({ eva: "eva-1", crew: ["ev2"], startS: instant(startS) });

function sessionAt() {
  const stage = sessionWith();
  return { ...stage, now: () => stage.session.state.getState() };
}

/** A desk whose chances are watched, with the first few days answered. */
async function watched() {
  const stage = sessionWith();
  const stop = stage.session.watchChances();
  const answer = (n: number, days: number) => stage.engine.glances[n]!.answer(chancesReport({ days }));
  await answer(0, FEW_DAYS);
  return { ...stage, stop, answer, now: () => stage.session.state.getState() };
}

describe("chances always in sight", () => {
  it("are worked out on few days at once, and on many when the day has rested", async () => {
    const { engine, clock, answer, now } = await watched();
    expect(engine.glances.map(({ days }) => days)).toEqual([FEW_DAYS, MANY_DAYS]);
    await answer(1, MANY_DAYS);
    expect(chancesNow(now())?.days).toBe(MANY_DAYS);
    clock.moveOn(5000);
    expect(engine.glances).toHaveLength(2);
  });

  it("are not asked for again where no day can be played, and no difference is made of what is unknown", async () => {
    const { session, engine, clock, now } = await watched();
    session.place("two", elsewhere(9000));
    await settled();
    const unknown = { days: 0, home: chanceOf(0, 0), must: chanceOf(0, 0), whole: chanceOf(0, 0) };
    await engine.glances[2]!.answer(chancesReport({ ...unknown, unplayed: ["two"] }));
    expect(chancesNow(now())?.unplayed).toEqual(["two"]);
    expect(now().chances?.change).toBeNull();
    clock.moveOn(5000);
    expect(engine.glances).toHaveLength(3);
  });

  it("are of another day at once when the day changes, and never taken for those of the shown one", async () => {
    const { session, engine, clock, answer, now } = await watched();
    await answer(1, MANY_DAYS);
    session.place("two", elsewhere(9000));
    expect(chancesStand(now())).toBe(false);
    expect(chancesNow(now())).toBeNull();
    await settled();
    // What was there stays to be shown as that of the day before.
    expect(now().chances?.report?.days).toBe(MANY_DAYS);
    await answer(2, FEW_DAYS);
    expect(chancesNow(now())?.days).toBe(FEW_DAYS);
    expect(engine.glances).toHaveLength(3);
    clock.moveOn(200);
    expect(engine.glances[3]!.days).toBe(MANY_DAYS);
  });

  it("follow the hand: one run at a time, then the newest schedule; many days wait until it is let go", async () => {
    const { session, engine, clock, answer, now } = await watched();
    session.begin("Move", ["one"]);
    const { plan } = now();
    const at = (startS: number) => () => scheduleWith(plan, "two", startS);
    session.preview(at(9000));
    await settled();
    // The refinement of the day before was given up: no pause comes of it.
    expect(engine.glances[1]!.cancelled()).toBe(true);
    await settled();
    session.preview(at(9060));
    await settled();
    session.preview(at(9120));
    await settled();
    expect(engine.glances).toHaveLength(3);
    await answer(2, FEW_DAYS);
    expect(chancesStand(now())).toBe(false);
    // A pause, in which the hand is drawn; then the newest.
    expect(engine.glances).toHaveLength(3);
    clock.moveOn(150);
    expect(engine.glances[3]!.schedule).toEqual(scheduleWith(plan, "two", 9120));
    await answer(3, FEW_DAYS);
    expect(chancesStand(now())).toBe(true);
    clock.moveOn(5000);
    expect(engine.glances).toHaveLength(4);
    session.commit();
    await settled();
    expect(chancesStand(now())).toBe(true);
    clock.moveOn(200);
    expect(engine.glances[4]!.days).toBe(MANY_DAYS);
  });

  it("say in hand by how much they differ from those before it, on the same few days, and nothing at rest", async () => {
    const { session, engine, now } = sessionAt();
    session.watchChances();
    const few = (home: number, must: number, whole: number) =>
      chancesReport({
        days: FEW_DAYS,
        home: chanceOf(home, FEW_DAYS),
        must: chanceOf(must, FEW_DAYS),
        whole: chanceOf(whole, FEW_DAYS),
      });
    await engine.glances[0]!.answer(few(300, 270, 90));
    expect(chanceChange(now())).toBeNull();
    session.begin("Move", ["one"]);
    const { plan } = now();
    session.preview(() => scheduleWith(plan, "two", 9000));
    await settled();
    await settled();
    await engine.glances[2]!.answer(few(300, 255, 100));
    // 85 % after 90 %: five points lost. A third less than 33 1/3 %: 3.33 points gained, said as 3.
    expect(chanceChange(now())).toMatchObject({ home: 0, must: -5, whole: 3 });
    session.commit();
    await settled();
    expect(chanceChange(now())).toBeNull();
    // The next hand begins with the day that was set down, which differs from itself in nothing.
    session.begin("Move", ["one"]);
    expect(chanceChange(now())).toBeNull();
  });

  it("that could not be worked out are unknown, and not asked for again until the day is another", async () => {
    const { session, engine, clock, now, answer } = await watched();
    await answer(1, MANY_DAYS);
    session.place("two", elsewhere(9000));
    await settled();
    await engine.glances[2]!.fail("too large");
    expect(chancesStand(now())).toBe(true);
    expect(chancesNow(now())).toBeNull();
    clock.moveOn(5000);
    expect(engine.glances).toHaveLength(3);
    session.place("two", elsewhere(9300));
    await settled();
    expect(engine.glances).toHaveLength(4);
  });

  it("are not worked out of an empty day, nor when nobody looks", async () => {
    const { session, engine, stop } = await watched();
    expect(engine.glances).toHaveLength(2);
    session.bench(["one"]);
    await settled();
    expect(engine.glances).toHaveLength(2);
    stop();
    session.place("two", elsewhere(9000));
    await settled();
    expect(engine.glances).toHaveLength(2);
  });
});

describe("chances of another day", () => {
  it("are worked out one day after the other and kept", async () => {
    const { session, engine } = sessionWith();
    const { plan } = session.state.getState();
    const days = [9000, 9300].map((startS) => ({ plan, schedule: scheduleWith(plan, "two", startS) }));
    const asked = days.map((day) => session.chancesOf(day));
    await settled();
    expect(engine.glances).toHaveLength(1);
    await engine.glances[0]!.answer(chancesReport({ days: MANY_DAYS }));
    await engine.glances[1]!.fail("too large");
    expect((await asked[0])?.days).toBe(MANY_DAYS);
    expect(await asked[1]).toBeNull();
    expect((await session.chancesOf(days[0]!))?.days).toBe(MANY_DAYS);
    expect(engine.glances).toHaveLength(2);
  });
});

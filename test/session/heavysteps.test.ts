import { describe, expect, it } from "vitest";
import { isHeavySite } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";
import { READY_NAMES, readyPlan } from "../readyplan.ts";
import { sessionWith, smallInput } from "./bench.ts";

/** The small plan among so many keep-out corners that its ways take long. */
function heavyInput(): PlanInput {
  const places = Array.from({ length: 80 }, (_, k) => ({
    ...{ id: `place-${k}`, name: `Place ${k}`, kind: "station" as const },
    ...{ eastM: 20 * k, northM: 500 },
  }));
  const keepOuts = Array.from({ length: 4 }, (_, k) => ({
    ...{ id: `keep-${k}`, name: `Keep-out ${k}`, kind: "walking" as const },
    shape: {
      type: "polygon" as const,
      points: Array.from({ length: 200 }, (_, corner) => ({
        eastM: 300 * k + 20 * Math.cos((corner * Math.PI) / 100),
        northM: 300 + 20 * Math.sin((corner * Math.PI) / 100),
      })),
    },
  }));
  return {
    ...smallInput,
    site: { ...smallInput.site, places: [...smallInput.site.places, ...places], keepOuts },
  };
}

/** A desk with the heavy plan open, on which ways are ready when it is said. */
function heavySession() {
  const asked: ((ready: boolean) => void)[] = [];
  const { session } = sessionWith({
    makeReady: () => {
      // Whoever asks last breaks off who asked before.
      asked.at(-1)?.(false);
      return new Promise((answer) => asked.push(answer));
    },
  });
  session.open(JSON.stringify(heavyInput()));
  const ready = async (is: boolean): Promise<void> => {
    asked.at(-1)?.(is);
    await new Promise((next) => setTimeout(next));
  };
  const move = (place: string, eastM: number): void => {
    session.edit(`Move ${place}`, ({ site }) => ({
      site: {
        ...site,
        places: site.places.map((one) => (one.id === place ? { ...one, eastM } : one)),
      },
    }));
  };
  const eastOf = (place: string): number | undefined =>
    session.state.getState().plan.site.places.find((one) => one.id === place)?.eastM;
  return { session, asked, ready, move, eastOf };
}

describe("an edit after which ways take long", () => {
  it("is made when they are known, as one step that can be taken back", async () => {
    const { session, ready, move, eastOf } = heavySession();
    expect(isHeavySite(session.state.getState().plan)).toBe(true);
    await session.saveNow();
    expect(session.atStake).toBe(false);
    move("place-3", 61);
    // Nothing has it yet: whoever leaves the page now is asked.
    expect(session.atStake).toBe(true);
    expect(eastOf("place-3")).toBe(60);
    await ready(true);
    expect(eastOf("place-3")).toBe(61);
    expect(session.state.getState().history.undo.map(({ name }) => name)).toEqual(["Move place-3"]);
    session.undo();
    expect(eastOf("place-3")).toBe(61);
    await ready(true);
    expect(eastOf("place-3")).toBe(60);
    expect(session.state.getState().history.redo.map(({ name }) => name)).toEqual(["Move place-3"]);
  });

  it("takes along what came before it and waits, and stands on what was done meanwhile", async () => {
    const { session, asked, ready, move, eastOf } = heavySession();
    move("place-3", 61);
    move("place-4", 81);
    session.edit("Rename", ({ tasks }) => ({
      tasks: tasks.map((task) => (task.id === "two" ? { ...task, name: "Another" } : task)),
    }));
    expect(asked).toHaveLength(2);
    await ready(true);
    expect([eastOf("place-3"), eastOf("place-4")]).toEqual([61, 81]);
    const { plan, history } = session.state.getState();
    expect(plan.tasks.find(({ id }) => id === "two")?.name).toBe("Another");
    expect(history.undo.map(({ name }) => name)).toEqual(["Rename", "Move place-3", "Move place-4"]);
  });

  it("leaves the plan as it is where it is broken off, by its own button or by undo, and says so", async () => {
    const { session, ready, move, eastOf } = heavySession();
    const said = (): readonly string[] => session.state.getState().notices.map(({ text }) => text);
    move("place-3", 61);
    await ready(false);
    expect(eastOf("place-3")).toBe(60);
    expect(said().at(-1)).toBe('"Move place-3" was broken off; the plan is as it was.');
    move("place-4", 81);
    session.undo();
    await ready(true);
    expect(eastOf("place-4")).toBe(80);
    expect(said().at(-1)).toBe('"Move place-4" was broken off; the plan is as it was.');
    expect(session.state.getState().history.undo).toEqual([]);
  });

  it("is told where the plan was changed meanwhile so that it does not fit any more", async () => {
    const { session, ready, move } = heavySession();
    move("place-3", 61);
    session.open(JSON.stringify({ ...heavyInput(), title: "Another plan" }));
    await ready(true);
    expect(session.state.getState().plan.title).toBe("Another plan");
    expect(session.state.getState().history.undo).toEqual([]);
    expect(session.state.getState().notices.at(-1)?.text).toContain("was broken off");
  });

  it("does not wait on the ready plans, or where no way changes", () => {
    for (const name of READY_NAMES) expect(isHeavySite(readyPlan(name))).toBe(false);
    const { session, asked } = heavySession();
    session.edit("Rename", () => ({ title: "By another name" }));
    expect(asked).toHaveLength(0);
    expect(session.state.getState().plan.title).toBe("By another name");
  });
});

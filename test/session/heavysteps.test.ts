import { describe, expect, it } from "vitest";
import { isHeavySite, type PlanInput } from "../../src/plan/index.ts";
import { READY_NAMES, readyPlan } from "../readyplan.ts";
import { deskWith, smallInput } from "./bench.ts";

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
function heavyDesk() {
  const asked: ((ready: boolean) => void)[] = [];
  const { desk } = deskWith({
    makeReady: () => {
      // Whoever asks last breaks off who asked before.
      asked.at(-1)?.(false);
      return new Promise((answer) => asked.push(answer));
    },
  });
  desk.open(JSON.stringify(heavyInput()));
  const ready = async (is: boolean): Promise<void> => {
    asked.at(-1)?.(is);
    await new Promise((next) => setTimeout(next));
  };
  const move = (place: string, eastM: number): void => {
    desk.edit(`Move ${place}`, ({ site }) => ({
      site: {
        ...site,
        places: site.places.map((one) => (one.id === place ? { ...one, eastM } : one)),
      },
    }));
  };
  const eastOf = (place: string): number | undefined =>
    desk.state.getState().plan.site.places.find((one) => one.id === place)?.eastM;
  return { desk, asked, ready, move, eastOf };
}

describe("an edit after which ways take long", () => {
  it("is made when they are known, as one step that can be taken back", async () => {
    const { desk, ready, move, eastOf } = heavyDesk();
    expect(isHeavySite(desk.state.getState().plan)).toBe(true);
    await desk.saveNow();
    expect(desk.atStake).toBe(false);
    move("place-3", 61);
    // Nothing has it yet: whoever leaves the page now is asked.
    expect(desk.atStake).toBe(true);
    expect(eastOf("place-3")).toBe(60);
    await ready(true);
    expect(eastOf("place-3")).toBe(61);
    expect(desk.state.getState().history.undo.map(({ name }) => name)).toEqual(["Move place-3"]);
    desk.undo();
    expect(eastOf("place-3")).toBe(61);
    await ready(true);
    expect(eastOf("place-3")).toBe(60);
    expect(desk.state.getState().history.redo.map(({ name }) => name)).toEqual(["Move place-3"]);
  });

  it("takes along what came before it and waits, and stands on what was done meanwhile", async () => {
    const { desk, asked, ready, move, eastOf } = heavyDesk();
    move("place-3", 61);
    move("place-4", 81);
    desk.edit("Rename", ({ tasks }) => ({
      tasks: tasks.map((task) => (task.id === "two" ? { ...task, name: "Another" } : task)),
    }));
    expect(asked).toHaveLength(2);
    await ready(true);
    expect([eastOf("place-3"), eastOf("place-4")]).toEqual([61, 81]);
    const { plan, history } = desk.state.getState();
    expect(plan.tasks.find(({ id }) => id === "two")?.name).toBe("Another");
    expect(history.undo.map(({ name }) => name)).toEqual(["Rename", "Move place-3", "Move place-4"]);
  });

  it("leaves the plan as it is where it is broken off, by its own button or by undo, and says so", async () => {
    const { desk, ready, move, eastOf } = heavyDesk();
    const said = (): readonly string[] => desk.state.getState().notices.map(({ text }) => text);
    move("place-3", 61);
    await ready(false);
    expect(eastOf("place-3")).toBe(60);
    expect(said().at(-1)).toBe('"Move place-3" was broken off; the plan is as it was.');
    move("place-4", 81);
    desk.undo();
    await ready(true);
    expect(eastOf("place-4")).toBe(80);
    expect(said().at(-1)).toBe('"Move place-4" was broken off; the plan is as it was.');
    expect(desk.state.getState().history.undo).toEqual([]);
  });

  it("is told where the plan was changed meanwhile so that it does not fit any more", async () => {
    const { desk, ready, move } = heavyDesk();
    move("place-3", 61);
    desk.open(JSON.stringify({ ...heavyInput(), title: "Another plan" }));
    await ready(true);
    expect(desk.state.getState().plan.title).toBe("Another plan");
    expect(desk.state.getState().history.undo).toEqual([]);
    expect(desk.state.getState().notices.at(-1)?.text).toContain("was broken off");
  });

  it("does not wait on the ready plans, or where no way changes", () => {
    for (const name of READY_NAMES) expect(isHeavySite(readyPlan(name))).toBe(false);
    const { desk, asked } = heavyDesk();
    desk.edit("Rename", () => ({ title: "By another name" }));
    expect(asked).toHaveLength(0);
    expect(desk.state.getState().plan.title).toBe("By another name");
  });
});

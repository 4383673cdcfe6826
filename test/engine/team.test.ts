import { describe, expect, it } from "vitest";
import type { PackProgress, PackReport } from "../../src/answers/index.ts";
import { makeCore } from "../../src/engine/core.ts";
import type { Engine, Hearing, PackOptions, WaysOptions } from "../../src/engine/calls.ts";
import { inTeam } from "../../src/engine/team.ts";
import type { Plan } from "../../src/plan/index.ts";
import { readyPlan } from "../readyplan.ts";

const plan = readyPlan("demo");

/** An engine in this thread that answers after `late` turns of the event loop. */
function engine(late: number, closed: string[] = []): Engine {
  const core = makeCore(() => 0);
  return {
    pack: async (of: Plan, options: PackOptions, hearing: Hearing<"pack">) => {
      for (let k = 0; k < late; k += 1) await new Promise((resolve) => setImmediate(resolve));
      return core.pack(of, options, hearing);
    },
    close: () => closed.push(`${late}`),
  } as unknown as Engine;
}

const options = { seed: 3, seconds: Infinity, iterations: 80 };

describe("a team of engines", () => {
  it("gives the best of its members' packs, the same whichever is done first", async () => {
    const alone: PackReport[] = [];
    for (const k of [0, 1, 2]) alone.push(await engine(0).pack(plan, { ...options, seed: 3 + k * 7919 }));
    const top = Math.max(...alone.map(({ verdict }) => verdict.score.worth));
    const heard: PackProgress[] = [];
    const quick = await inTeam(engine(0), () => [engine(1), engine(2)]).pack(plan, options, {
      report: (now) => heard.push(now),
    });
    const slow = await inTeam(engine(9), () => [engine(4), engine(0)]).pack(plan, options);
    expect(quick.verdict.score.worth).toBe(top);
    expect(slow.schedule).toEqual(quick.schedule);
    expect(quick.iterations).toBe(3 * 80);
    // What is told gets better only: more must-do tasks first, then more worth.
    const told = heard.map(({ mustPlaced, worth }) => [mustPlaced, worth] as const);
    expect(told).toEqual([...told].sort(([m, w], [n, x]) => m - n || w - x));
    expect(told.at(-1)![1]).toBe(top);
  });

  it("asks for mates once, at the first pack, and closes them all", async () => {
    const closed: string[] = [];
    let asked = 0;
    const team = inTeam(engine(0, closed), () => {
      asked += 1;
      return [engine(1, closed)];
    });
    expect(asked).toBe(0);
    await team.pack(plan, { ...options, iterations: 4 });
    await team.pack(plan, { ...options, iterations: 4 });
    team.close();
    expect(asked).toBe(1);
    expect(closed.sort()).toEqual(["0", "1"]);
  });

  it("works the ways over heights out once: the first member for all, who take them over", async () => {
    const asked: string[] = [];
    const member = (name: string): Engine => {
      const core = makeCore(() => 0);
      return {
        ways: async (of: Plan, given: WaysOptions, hearing: Hearing<"ways">) => {
          asked.push(`${name} works ways out`);
          return structuredClone(await core.ways(of, given, hearing));
        },
        pack: (of: Plan, given: PackOptions, hearing: Hearing<"pack">) => {
          asked.push(`${name} packs${given.ways ? " with ways" : ""}`);
          expect(given.ways?.relief?.networks ?? []).toEqual([]);
          return core.pack(of, given, hearing);
        },
      } as unknown as Engine;
    };
    const few = { ...options, iterations: 8 };
    const made = await inTeam(member("a"), () => [member("b"), member("c")]).pack(plan, few);
    expect(asked).toEqual(["a works ways out", "a packs", "b packs with ways", "c packs with ways"]);
    const [own, ...others] = [engine(0), engine(0), engine(0)];
    expect(made.schedule).toEqual((await inTeam(own!, () => others).pack(plan, few)).schedule);
    asked.length = 0;
    await inTeam(member("a"), () => [member("b")]).pack({ ...plan, ground: undefined }, few);
    await inTeam(member("a"), () => []).pack(plan, few);
    expect(asked).toEqual(["a packs", "b packs", "a packs"]);
  });

  it("is cancelled as one, and gives what is left when a member fails", async () => {
    const cancel = new AbortController();
    cancel.abort();
    const team = inTeam(engine(0), () => [engine(1)]);
    await expect(team.pack(plan, options, { signal: cancel.signal })).rejects.toMatchObject({
      reason: "cancelled",
    });
    const broken = { ...engine(0), pack: () => Promise.reject(new Error("lost")) } as Engine;
    const made = await inTeam(broken, () => [engine(0)]).pack(plan, options);
    expect(made.verdict.score.breaches).toBe(0);
    await expect(inTeam(broken, () => [broken]).pack(plan, options)).rejects.toThrow("lost");
  });
});

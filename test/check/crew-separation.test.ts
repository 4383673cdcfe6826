import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/crew-separation.ts";
import { only } from "./pair.ts";
import { at, place, task, tinyPlan } from "./tinyPlan.ts";

describe("crew separation", () => {
  test("crew-separation counts who waits at the lander", () => {
    const alone = tinyPlan({
      tasks: [task("one", "b")],
      placements: [at("one", 2000)],
      rules: { separation: { greatestM: 599 } },
    });
    // EV1 reaches b at 2000; that is the moment told.
    expect(only(alone, "crew-separation")).toMatchObject({
      level: "breach",
      have: 600,
      span: { startS: 2000, endS: 2001 },
    });
  });

  test("crew-separation is tight within 5 % of the limit", () => {
    // 500 / 526 = 95.06 %; 500 / 527 = 94.9 %.
    expect(only(plan(526), "crew-separation").level).toBe("tight");
    expect(check(plan(527)).findings).toEqual([]);
  });

  test("crew-separation follows the hops of a way through other places", () => {
    // No straight line from a to c past the pit: EV1 walks 600 m to far (900, 0), then the given leg of 10 s to c.
    const round = tinyPlan({
      places: [place("lander", 0, 0), place("a", 300, 0), place("c", 0, 400), place("far", 900, 0)],
      tasks: [task("one", "a"), task("two", "c")],
      placements: [at("one", 2000), at("two", 9000)],
      rules: { separation: { greatestM: 899 } },
      site: {
        legs: [{ from: "far", to: "c", distanceM: 10, durationS: 10 }],
        keepOuts: [
          {
            id: "pit",
            name: "pit",
            kind: "walking",
            shape: { type: "disc", eastM: 150, northM: 200, radiusM: 10 },
          },
        ],
      },
    });
    // one ends at 2600: far at 3200, 900 m from EV2 at the lander; c at 3210, 400 m.
    expect(only(round, "crew-separation")).toMatchObject({ have: 900, span: { startS: 3200 } });
    const points = check(round).separation[0]!.points;
    const atA = points.findIndex(({ atS }) => atS === 2600);
    expect(points.slice(atA, atA + 3)).toEqual([
      { atS: 2600, value: 300 },
      { atS: 3200, value: 900 },
      { atS: 3210, value: 400 },
    ]);
  });

  test("crew-separation is greatest at a breakpoint: no second in between lies above its track", () => {
    const coordinate = fc.integer({ min: -500, max: 500 });
    const somewhere = fc.tuple(coordinate, coordinate);
    fc.assert(
      fc.property(
        fc.array(somewhere, { minLength: 4, maxLength: 4 }),
        fc.integer({ min: 0, max: 500 }),
        (points, lateS) => {
          const ids = ["p", "q", "r", "s"];
          const verdict = check(
            tinyPlan({
              places: [place("lander", 0, 0), ...points.map(([e, n], i) => place(ids[i]!, e, n))],
              tasks: ids.map((id) => task(id, id, { duration: { likelyS: 100 } })),
              placements: [
                at("p", 2000),
                at("q", 4000),
                at("r", 2000 + lateS, ["ev2"]),
                at("s", 4000 + lateS, ["ev2"]),
              ],
            }),
          );
          const track = verdict.separation[0]!.points;
          const greatest = Math.max(...track.map(({ value }) => value));
          const [one, other] = verdict.outings;
          const spot = (id: string): { eastM: number; northM: number } => {
            const i = ids.indexOf(id);
            return i < 0 ? { eastM: 0, northM: 0 } : { eastM: points[i]![0], northM: points[i]![1] };
          };
          const where = (outing: typeof one, atS: number): { eastM: number; northM: number } => {
            const on = outing!.stretches.find(({ span }) => span.startS <= atS && atS < span.endS)!;
            const from = spot(on.path[0]!);
            const to = spot(on.path.at(-1)!);
            const share = (atS - on.span.startS) / (on.span.endS - on.span.startS);
            return {
              eastM: from.eastM + (to.eastM - from.eastM) * share,
              northM: from.northM + (to.northM - from.northM) * share,
            };
          };
          let seen = 0;
          for (let atS: number = one!.span.startS; atS < one!.span.endS; atS += 1) {
            const [p, q] = [where(one, atS), where(other, atS)];
            seen = Math.max(seen, Math.hypot(p.eastM - q.eastM, p.northM - q.northM));
          }
          expect(seen).toBeLessThanOrEqual(greatest + 1e-6);
          // Breakpoints are whole seconds, so the greatest is seen as well.
          expect(seen).toBeGreaterThan(greatest - 1e-6);
        },
      ),
      { numRuns: 30 },
    );
  });
});

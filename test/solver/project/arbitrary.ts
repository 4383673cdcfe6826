import fc from "fast-check";
import { type Project, projectFrom } from "../../../src/solver/project/problem.ts";

interface Sizes {
  readonly activities: number;
  readonly horizon: number;
  /** True: lags of both signs between any two, so that greatest lags and circles occur. */
  readonly circles: boolean;
  readonly openings: boolean;
}

/** Random small projects with up to three resources. */
export function projects({ activities, horizon, circles, openings }: Sizes): fc.Arbitrary<Project> {
  return fc
    .record({
      lengths: fc.array(fc.nat(3), { minLength: 2, maxLength: activities }),
      capacities: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 3 }),
      uses: fc.infiniteStream(fc.nat(3)),
      lags: fc.array(fc.tuple(fc.nat(), fc.nat(), fc.integer({ min: -3, max: 4 })), { maxLength: 6 }),
      gaps: fc.infiniteStream(fc.tuple(fc.nat(3), fc.nat(2), fc.nat(2))),
    })
    .map(({ lengths, capacities, uses, lags, gaps }) => {
      const next = (): number => uses.next().value as number;
      return projectFrom({
        lengths,
        capacities,
        demands: lengths.map(() => capacities.map((capacity) => Math.min(next(), capacity))),
        lags: lags.flatMap(([x, y, lag]) => {
          const [a, b] = [x % lengths.length, y % lengths.length];
          if (a === b) return [];
          return circles ? [{ from: a, to: b, lag }] : [{ from: Math.min(a, b), to: Math.max(a, b), lag }];
        }),
        openings: lengths.map(() => {
          if (!openings) return [{ from: 0, to: horizon }];
          const [first, wide, gap] = gaps.next().value as [number, number, number];
          const second = first + wide + 2 + gap;
          const list = [{ from: first, to: first + wide }];
          return second <= horizon ? [...list, { from: second, to: horizon }] : list;
        }),
      });
    });
}

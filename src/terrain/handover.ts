import { gaitsOf, type WalkingPlan } from "./gaits.ts";
import type { SiteInput } from "./ground.ts";
import { type Home, homeInSteps, quickest, takeHome } from "./home.ts";
import type { HeightGrid } from "./grid.ts";
import { midstOf } from "./midst.ts";
import { type NetworkDump, networkDump, takeNetwork, trailsFrom } from "./network.ts";
import { reliefOf, takeRelief } from "./relief.ts";
import { reliefNetwork, takeWays, type Ways, waysInSteps } from "./ways.ts";

/**
 * All that is dear of a plan's ways, worked out in one place and taken over in another, so that a page need not stand still for it: its
 * worker does the work, and the page remembers what came of it as if it had worked it out itself. Plain data, that can be sent.
 */
export interface WorkedWays {
  readonly ways: Ways;
  readonly home: Home;
  /** Null where the plan has no heights. */
  readonly relief: { readonly grid: HeightGrid; readonly networks: readonly NetworkDump[] } | null;
}

type GroundPlan = WalkingPlan & { readonly site: SiteInput };

/**
 * Works the ways of `plan` out piece by piece: each step says how many places are done; what it returns has it all. `bare` leaves out
 * what only ways that are not there yet need.
 */
export function* workedWays(
  plan: GroundPlan,
  { bare = false }: { readonly bare?: boolean | undefined } = {},
): Generator<number, WorkedWays> {
  const { site } = plan;
  // Every place is come to twice: for its ways out, and for those home.
  let reported = 0;
  function* counted<T>(steps: Generator<number, T>, round: number): Generator<number, T> {
    for (;;) {
      const step = steps.next();
      if (step.done) return step.value;
      reported = Math.max(reported, Math.floor((round * site.places.length + step.value) / 2));
      yield reported;
    }
  }
  const { planned, back } = gaitsOf(plan);
  const { relief } = planned;
  if (relief) {
    const network = reliefNetwork(site, planned, relief);
    const midst = midstOf(network, site.places);
    for (const [k, place] of site.places.entries()) {
      yield (reported = k);
      trailsFrom(network, place, site.places, midst);
    }
  }
  const ways = yield* counted(waysInSteps(site, planned), 0);
  const home = yield* counted(homeInSteps(site, ways, back), 1);
  yield site.places.length;
  if (!relief) return { ways, home, relief: null };
  if (bare) return { ways, home, relief: { grid: relief.grid, networks: [] } };
  const gaits = [planned, back, quickest(back)];
  const networks = new Set(
    gaits.flatMap((gait) => (gait.relief ? reliefNetwork(site, gait, gait.relief) : [])),
  );
  return { ways, home, relief: { grid: relief.grid, networks: [...networks].map(networkDump) } };
}

/** Takes over what was worked out elsewhere for a plan with the same ground and walking. */
export function takeWorkedWays(plan: GroundPlan, { ways, home, relief }: WorkedWays): void {
  if (plan.ground && relief) {
    takeRelief(plan.ground, relief.grid);
    const grid = reliefOf(plan.ground);
    for (const network of relief.networks) takeNetwork(grid, network);
  }
  const { planned, back } = gaitsOf(plan);
  takeWays(plan.site, planned, ways);
  takeWays(plan.site, quickest(back), home.back);
  takeHome(plan.site, ways, back, home);
}

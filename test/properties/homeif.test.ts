import { describe, expect, it } from "vitest";
import type { HomeIf, Outing } from "../../src/answers/index.ts";
import { check, homeIfs } from "../../src/check/index.ts";
import {
  type Amounts,
  CONSUMABLES,
  drawPerSecond,
  metabolicW,
  reserves,
  stocks,
  suitIn,
  walkbackW,
} from "../../src/physics/index.ts";
import { type CrewMember, type Eva, type Plan, type Suit, suitOn } from "../../src/plan/index.ts";
import {
  gaitsOf,
  heavensOf,
  homeOf,
  insideHome,
  insideOf,
  environmentHeatOnEvaW,
  waysOf,
} from "../../src/terrain/index.ts";
import { packedPlan } from "./packedPlan.ts";

/** HOME IF (G1) is played second by second, with rates and ways taken from physics and terrain and nothing from the judge. */

const PLANS = 100;

/** A walk-back as somebody would have to walk it. */
interface WalkBack {
  readonly seconds: number;
  readonly slopeRad: number;
}

/** A suit on an outing: what it draws, and what is in it when it is full. */
function suitOf(plan: Plan, eva: Eva, member: CrewMember, suit: Suit) {
  const { walking, walkback } = plan.rules;
  const about = environmentHeatOnEvaW(heavensOf(plan), suit, eva);
  const who = { factor: member.workRateFactor, massKg: member.bodyMassKg + suit.massKg };
  const full = stocks(suit);
  return {
    full,
    reserve: reserves(full, suit.reserve),
    walkback: (slopeRad: number): Amounts =>
      drawPerSecond(
        suitIn(suit, "walking", about),
        walkbackW(walkback.metabolicW, walking, who, plan.body.gravityMs2, walkback.speedMs, slopeRad),
      ),
    hatch: drawPerSecond(suitIn(suit, "working", about), metabolicW("egress-ingress", member.workRateFactor)),
  };
}
type WornSuit = ReturnType<typeof suitOf>;

/** Whether who has so many % of each stock, and turns home at once, comes in with the reserve: drawn second by second. */
function comesHome(
  suit: WornSuit,
  eva: Eva,
  { seconds, slopeRad }: WalkBack,
  pct: (of: (typeof CONSUMABLES)[number]) => number,
): boolean {
  const [onWay, atHatch] = [suit.walkback(slopeRad), suit.hatch];
  return CONSUMABLES.every((of) => {
    // Hundredths of a unit, so that a whole % is a whole number.
    let left = pct(of) * suit.full[of];
    for (let s = 0; s < seconds; s += 1) left -= 100 * onWay[of];
    for (let s = 0; s < eva.ingressWorkS; s += 1) left -= 100 * atHatch[of];
    return left >= 100 * suit.reserve[of];
  });
}

/** What the walk-backs of a plan are, by terrain alone. */
function terrainOf(plan: Plan) {
  const gaits = gaitsOf(plan);
  const ways = waysOf(plan.site, gaits.planned);
  const home = homeOf(plan.site, ways, gaits.back);
  const at = (id: string): number => ways.index.get(id) ?? ways.lander;
  const fromPlace = (id: string): WalkBack => ({
    seconds: home.placeS[at(id)]!,
    slopeRad: home.placeSlopeRad[at(id)]!,
  });
  /** From the worst point between, where that is farther than both ends. */
  const between = (ends: readonly WalkBack[], worst: WalkBack): WalkBack[] =>
    worst.seconds > Math.max(...ends.map(({ seconds }) => seconds)) ? [...ends, worst] : [...ends];
  return {
    /** All that somebody may have to walk from where a stretch of an outing leads. */
    from({ kind, path, task }: Outing["stretches"][number]): WalkBack[] {
      const ends = [fromPlace(path[0]!), fromPlace(path.at(-1)!)];
      if (kind === "traverse") {
        const cell = at(path[0]!) * ways.size + at(path.at(-1)!);
        return between(ends, { seconds: home.peakS[cell]!, slopeRad: home.peakSlopeRad[cell]! });
      }
      const own = plan.tasks.find(({ id }) => id === task);
      if (!own) return ends;
      return between(ends, insideHome(home, insideOf(ways, own, gaits.planned.speedMs), gaits.back.speedMs));
    },
  };
}

function wornBy(plan: Plan, { eva, crew }: Pick<HomeIf, "eva" | "crew">): { eva: Eva; suit: WornSuit } {
  const outing = plan.evas.find(({ id }) => id === eva)!;
  const member = plan.crew.find(({ id }) => id === crew)!;
  return { eva: outing, suit: suitOf(plan, outing, member, suitOn(plan, outing, crew)!) };
}

describe("HOME IF (G1)", () => {
  it(`brings everybody home with the reserve from any place and minute of ${PLANS} plans, and one % less does not`, () => {
    const seen = { minutes: 0, pages: 0, paths: 0 };
    for (let seed = 1; seed <= PLANS; seed += 1) {
      const plan = packedPlan(seed);
      const terrain = terrainOf(plan);
      const all = homeIfs(plan);
      for (const outing of check(plan).outings) {
        const { eva, suit } = wornBy(plan, outing);
        const own = all.filter((one) => one.eva === outing.eva && one.crew === outing.crew);
        const lander = own.find(({ at }) => at === "lander")!;
        let said = lander;
        const hardest = new Map<HomeIf, WalkBack[]>();
        for (const [k, stretch] of outing.stretches.entries()) {
          const { kind, task, span } = stretch;
          const next = outing.stretches.slice(k).find((one) => one.task !== null)?.task ?? null;
          // Who waits goes on reading what stood for the way there, or for the task done there.
          if (kind === "task" || kind === "traverse")
            said = own.find((one) => one.at === (kind === "task" ? "task" : "way") && one.task === next)!;
          else if (kind !== "wait") said = lander;
          const walkbacks = terrain.from(stretch);
          hardest.set(said, [...(hardest.get(said) ?? []), ...walkbacks]);
          // Whatever the minute, it is one of these that has to be walked.
          for (const walkback of walkbacks)
            expect(
              comesHome(suit, eva, walkback, (of) => said.leastPct![of] ?? 0),
              `seed ${seed}, ${outing.crew}, ${kind} ${task}`,
            ).toBe(true);
          seen.minutes += Math.floor(span.endS / 60) - Math.floor(span.startS / 60);
          if (kind === "task" && stretch.path.length > 1) seen.paths += 1;
        }
        for (const [said, walkbacks] of hardest) {
          for (const of of CONSUMABLES) {
            const pct = said.leastPct![of];
            if (pct === null) continue;
            const less = (one: typeof of): number => (one === of ? pct - 1 : 1e9);
            expect(
              walkbacks.every((walkback) => comesHome(suit, eva, walkback, less)),
              `seed ${seed}, ${outing.crew}, ${said.at} ${said.task}, ${of} ${pct} %`,
            ).toBe(false);
          }
          seen.pages += 1;
        }
      }
    }
    expect(seen.minutes).toBeGreaterThan(PLANS * 60);
    expect(seen.pages).toBeGreaterThan(PLANS * 5);
    expect(seen.paths).toBeGreaterThan(PLANS / 4);
  });
});

import { levelW } from "../physics/index.ts";
import { reliefOf, type StoredGround } from "./relief.ts";
import type { Gait, Relief } from "./ground.ts";

/** What a plan says of walking: the part of it that decides where ways go. */
export interface WalkingPlan {
  readonly ground?: (StoredGround & { readonly detour: number; readonly aim: "time" | "energy" }) | undefined;
  readonly body: { readonly gravityMs2: number };
  readonly crew: readonly {
    readonly id: string;
    readonly bodyMassKg: number;
    readonly workRateFactor: number;
    readonly suit: string;
  }[];
  readonly suits: readonly { readonly id: string; readonly massKg: number }[];
  /** EVAs on which somebody wears another suit than their own. */
  readonly evas: readonly { readonly suits: Readonly<Record<string, string>> }[];
  readonly rules: {
    readonly walking: {
      readonly speedMs: number;
      readonly metabolicW: number;
      readonly rateAtMs: number;
      readonly detour: number;
      readonly greatestSlopeDeg: number;
      readonly greatestDownDeg?: number | undefined;
      readonly greatestAcrossDeg?: number | undefined;
    };
    readonly walkback: { readonly speedMs: number };
  };
}

/** The planned gait and that of the way home. */
export function gaitsOf(plan: WalkingPlan): { readonly planned: Gait; readonly back: Gait } {
  const { walking, walkback } = plan.rules;
  const relief = plan.ground && reliefGait(plan, plan.ground);
  const gait = (speedMs: number): Gait => ({
    speedMs,
    detour: walking.detour,
    greatestSlopeDeg: walking.greatestSlopeDeg,
    ...(relief ? { relief } : {}),
  });
  return {
    planned: gait(walking.speedMs),
    back: { ...gait(walkback.speedMs), legsAtMs: walking.speedMs },
  };
}

function reliefGait(plan: WalkingPlan, ground: NonNullable<WalkingPlan["ground"]>): Relief {
  const { walking } = plan.rules;
  const suitKg = new Map(plan.suits.map((suit) => [suit.id, suit.massKg]));
  const massesKg = plan.crew.flatMap(({ id, bodyMassKg, suit }) => {
    const worn = [suit, ...plan.evas.map(({ suits }) => (Object.hasOwn(suits, id) ? suits[id] : suit))];
    return worn.map((one) => bodyMassKg + (suitKg.get(one ?? suit) ?? 0));
  });
  const heaviest = {
    factor: Math.max(...plan.crew.map((member) => member.workRateFactor)),
    massKg: Math.max(...massesKg),
  };
  const { gravityMs2 } = plan.body;
  return {
    grid: reliefOf(ground),
    detour: ground.detour,
    downDeg: walking.greatestDownDeg ?? walking.greatestSlopeDeg,
    acrossDeg: walking.greatestAcrossDeg ?? walking.greatestSlopeDeg,
    effort:
      ground.aim === "time" || massesKg.length === 0
        ? null
        : {
            levelW: levelW(walking, heaviest, gravityMs2, walking.speedMs),
            massKg: heaviest.massKg,
            gravityMs2,
            speedMs: walking.speedMs,
          },
  };
}

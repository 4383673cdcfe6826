import { duration, instant } from "../../../kernel/index.ts";
import type { CONSUMABLES } from "../../../physics/index.ts";
import type { Eva, Plan, Suit } from "../../../plan/index.ts";
import { FLIGHT_RULES, mostEased } from "../../../rules/index.ts";
import { CONSUMABLE_WORDS, lasting, met } from "../../../words/index.ts";
import { type Relaxation, withOne } from "./relaxation.ts";

/** More of an EVA: longer, later in, earlier out; longer and later in together where neither alone is enough. */
export function outingRelaxations(eva: Eva): Relaxation[] {
  // Nobody goes out before touchdown.
  const spareMin = Math.floor(eva.earliestEgressS / 60);
  const relaxation = (
    kind: "longest" | "ingress" | "egress" | "outing",
    change: (one: Eva, byS: number) => Eva,
    say: (byS: number) => string,
  ): Relaxation => ({
    kind,
    subject: eva.id,
    most: kind === "egress" ? Math.min(mostEased("eva-bounds"), spareMin) : mostEased("eva-bounds"),
    drops: [],
    owner: null,
    ...(kind === "outing" ? { unless: ["longest", "ingress"] as const } : {}),
    change: (plan, steps) => ({
      ...plan,
      evas: withOne(plan.evas, eva.id, (one) => change(one, steps * 60)),
    }),
    size: (steps) => (steps * 60) / Math.max(60, eva.longestS),
    say: (steps) => say(steps * 60),
  });
  const longer = (one: Eva, byS: number): Eva => ({ ...one, longestS: duration(one.longestS + byS) });
  const later = (one: Eva, byS: number): Eva => ({
    ...one,
    latestIngressS: instant(one.latestIngressS + byS),
  });
  return [
    relaxation(
      "longest",
      longer,
      (byS) =>
        `${eva.name} may last ${lasting(byS, "up")} longer: ${lasting(eva.longestS + byS, "up")} instead of ${lasting(eva.longestS, "down")}.`,
    ),
    relaxation(
      "ingress",
      later,
      (byS) =>
        `Ingress of ${eva.name} may be complete ${lasting(byS, "up")} later: by ${met(eva.latestIngressS + byS)}.`,
    ),
    ...(spareMin > 0
      ? [
          relaxation(
            "egress",
            (one, byS) => ({ ...one, earliestEgressS: instant(one.earliestEgressS - byS) }),
            (byS) =>
              `Egress of ${eva.name} may be ${lasting(byS, "up")} earlier: from ${met(eva.earliestEgressS - byS)}.`,
          ),
        ]
      : []),
    relaxation(
      "outing",
      (one, byS) => later(longer(one, byS), byS),
      (byS) =>
        `${eva.name} may last ${lasting(byS, "up")} longer and end as much later: ${lasting(eva.longestS + byS, "up")}, complete by ${met(eva.latestIngressS + byS)}.`,
    ),
  ];
}

/** A smaller reserve of one consumable of one or several suits, by whole percents of the stock. */
export function reserveRelaxation(
  plan: Plan,
  suitIds: readonly string[],
  kind: (typeof CONSUMABLES)[number],
): Relaxation | null {
  const suits = plan.suits.filter((one) => suitIds.includes(one.id));
  // A share of 0.15 is 15 %, whatever the noise of its decimals.
  const percents = suits.map((suit) => Math.ceil(suit.reserve[kind] * 100 - 1e-9));
  const most = Math.min(...percents);
  if (most < 1) return null;
  const left = (suit: Suit, steps: number): number => Math.ceil(suit.reserve[kind] * 100 - 1e-9) - steps;
  return {
    kind: "reserve",
    subject: suitIds[0]!,
    most,
    drops: [],
    owner: FLIGHT_RULES["oxygen-reserve"].decides,
    change: (now, steps) => ({
      ...now,
      suits: now.suits.map((one) =>
        suitIds.includes(one.id)
          ? { ...one, reserve: { ...one.reserve, [kind]: left(one, steps) / 100 } }
          : one,
      ),
    }),
    size: (steps) => (suits.length * steps) / most,
    say: (steps) =>
      suits
        .map(
          (suit, k) =>
            `The ${CONSUMABLE_WORDS[kind]} reserve of ${suit.name} goes from ${percents[k]!} to ${percents[k]! - steps} %.`,
        )
        .join(" "),
  };
}

import type { Limit, Limiter } from "../answers/index.ts";
import { instant } from "../kernel/index.ts";
import { drinkingS } from "../physics/index.ts";
import type { Plan } from "../plan/index.ts";
import { CONSUMABLE_WORDS, crewName, evaName } from "../words/index.ts";
import type { Out } from "./crewouting.ts";
import type { Walkthrough } from "./walkthrough.ts";

/**
 * The bounds on ingress complete of an EVA that do not depend on who is where: longest duration, latest ingress, liftoff, the
 * first block of its crew, time outside in the stay, drinking water, and, with `later`, the recharge before the next EVA of its crew,
 * and before somebody else wears the suit, as scheduled. Without it, later EVAs are taken to wait. A block that is under way at egress bounds nothing: no ingress keeps
 * clear of it, and the judge tells of it.
 */
export function boundsOf(
  { prepared, crewOutingsOf, crewOutingsIn }: Walkthrough,
  { eva, span, crewOutings }: Out,
  later: boolean,
): Limit[] {
  const { stay, rules } = prepared.plan;
  const egressS: number = span.egressS;
  const limits: Limit[] = [];
  const add = (ingressS: number, by: Limiter): void => {
    if (Number.isFinite(ingressS)) limits.push({ ingressS: instant(ingressS), by });
  };
  add(egressS + eva.longestS, { kind: "longest" });
  add(eva.latestIngressS, { kind: "latest-ingress" });
  add(stay.lengthS, { kind: "liftoff" });
  for (const block of stay.blocks) {
    const resting = block.crew.length === 0 || eva.crew.some((member) => block.crew.includes(member));
    if (resting && block.startS > egressS) add(block.startS, { kind: "block", block: block.id });
  }
  for (const { walker, outing } of crewOutings) {
    const { crew } = outing;
    const own = crewOutingsOf.get(crew) ?? [];
    const mine = own.findIndex((crewOuting) => crewOuting.outing === outing);
    const others = own.filter((_, k) => (later ? k !== mine : k < mine));
    const outsideS = others.reduce((sum, one) => sum + (one.outing.span.endS - one.outing.span.startS), 0);
    add(egressS + rules.duty.stayS - outsideS, { kind: "duty", crew });
    const { drinkKg } = walker.suit;
    if (drinkKg !== undefined)
      add(egressS + drinkingS(drinkKg, rules.drinking.kgH), { kind: "drinking", crew });
    // Two in one suit at once are a breach of their own.
    const nextIn = crewOutingsIn
      .get(walker.suit.id)
      ?.find((crewOuting) => crewOuting.outing.span.startS >= span.ingressS);
    for (const next of later ? [own[mine + 1], nextIn] : [])
      if (next)
        add(next.outing.span.startS - rules.recharge.leastS, {
          kind: "recharge",
          crew: next.outing.crew,
          eva: next.outing.eva,
        });
  }
  return limits;
}

/** The limits, the one that binds first. */
export function inOrder(limits: readonly Limit[]): Limit[] {
  return limits.toSorted((a, b) => a.ingressS - b.ingressS);
}

/** What sets a limit, in words that follow "set by". */
export function limiterWords(plan: Plan, by: Limiter): string {
  const crew = (id: string): string => crewName(plan, id);
  switch (by.kind) {
    case "longest":
      return "longest EVA";
    case "latest-ingress":
      return "latest ingress";
    case "liftoff":
      return "liftoff";
    case "block":
      return plan.stay.blocks.find((one) => one.id === by.block)?.name ?? by.block;
    case "recharge":
      return `recharge of ${crew(by.crew)} before ${evaName(plan, by.eva)}`;
    case "duty":
      return `time outside in the stay, ${crew(by.crew)}`;
    case "drinking":
      return `drinking water of ${crew(by.crew)}`;
    case "emergency":
      return `emergency oxygen of ${crew(by.crew)}`;
    case "reserve":
      return `${CONSUMABLE_WORDS[by.consumable]} of ${crew(by.crew)}, with its reserve`;
    case "walk-back":
      return `${CONSUMABLE_WORDS[by.consumable]} of ${crew(by.crew)} for the walk-back`;
  }
}

/** The same of a recall (`recallOf`): until they start home a suit is counted on at the hardest work that is still to come. */
export function recallLimiterWords(plan: Plan, by: Limiter): string {
  const words = limiterWords(plan, by);
  return by.kind === "reserve" || by.kind === "walk-back"
    ? `${words}, at the hardest work until then`
    : words;
}

import { FASTEST_MS } from "../../physics/index.ts";
import type { Plan } from "../../plan/index.ts";
import { kmH, speed } from "../../words/index.ts";

/** What is said where a plan walks faster than anybody was timed in a suit. */
export function paceWords({ rules }: Pick<Plan, "rules">): string {
  const { walking, walkback } = rules;
  return `Walking is planned at ${speed(walking.speedMs)} and back at ${speed(walkback.speedMs)}; the fastest timed in a suit is ${kmH(FASTEST_MS)}, 1.944 m/s.`;
}

import { useCallback } from "react";
import type { Plan } from "../../plan/index.ts";
import { useSession } from "../context.ts";
import { useSite } from "./context.ts";
import { useLatest } from "./latest.ts";
import { useGroundAndLight } from "./light.ts";
import { leftAt } from "./shown.ts";

const NONE: readonly never[] = [];

/** The engine's answers for what is shown: for `plan`, which is the open one but for the place in hand. */
export function useAnswers(minuteS: number, plan: Plan) {
  const { site } = useSite();
  const open = useSession((state) => state.plan);
  const verdict = useSession((state) => state.verdict);
  const findRings = useCallback(
    (signal: AbortSignal) => site.rings(open, leftAt(verdict, minuteS), signal),
    [site, open, verdict, minuteS],
  );
  const findWalks = useCallback((signal: AbortSignal) => site.walks(plan, signal), [site, plan]);
  const { ground, light } = useGroundAndLight(open, minuteS);
  const rings = useLatest(findRings);
  const walks = useLatest(findWalks);
  return {
    ground: ground.answer,
    light: light.answer,
    rings: rings.answer ?? NONE,
    walks: walks.answer,
    problem: ground.problem ?? light.problem ?? rings.problem ?? walks.problem,
  };
}

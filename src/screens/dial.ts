import { useMemo } from "react";
import type { Verdict } from "../answers/index.ts";
import type { Plan } from "../plan/index.ts";
import { shownVerdict } from "../session/index.ts";
import { type Dial, type Phase, touchdownMs } from "../words/index.ts";
import { useSession, useView } from "./context.ts";

/** The clock that times are read on. Another object only when it reads otherwise, so that still pictures stay. */
export function useDial(): Dial {
  const chosen = useView((state) => state.clock);
  const stay = useSession((state) => state.plan.stay);
  // Read once a stay: every clock on the page asks, in every frame of a move.
  const epochMs = useMemo(() => touchdownMs({ stay }), [stay]);
  const kind = epochMs === null && chosen === "utc" ? "met" : chosen;
  // Egress moves with the first task in hand; only phase time depends on it.
  const phases = useSession((state) =>
    kind === "pet" ? JSON.stringify(phasesOf(state.plan, shownVerdict(state))) : "[]",
  );
  return useMemo(
    () => ({ kind, touchdownMs: epochMs, phases: JSON.parse(phases) as Phase[] }),
    [kind, epochMs, phases],
  );
}

function phasesOf(plan: Plan, verdict: Verdict): readonly Phase[] {
  return plan.evas.flatMap(({ id, name }) => {
    const span = verdict.outings.find((one) => one.eva === id)?.span;
    return span ? [{ eva: id, name, startS: span.startS, endS: span.endS }] : [];
  });
}

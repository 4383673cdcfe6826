import { useMemo } from "react";
import type { Dial } from "../../dayline/index.ts";
import { shownVerdict, type Verdict } from "../../store/index.ts";
import { useDesk, useLook } from "../context.ts";
import { touchdownMs } from "../words.ts";

/** The clock that times are read on. Another object only when it reads otherwise, so that still pictures stay. */
export function useDial(): Dial {
  const kind = useLook((state) => state.clock);
  const epochMs = useDesk((state) => touchdownMs(state.plan));
  // Egress moves with the first task in hand; only phase time depends on it.
  const phases = useDesk((state) => (kind === "pet" ? phaseText(shownVerdict(state)) : ""));
  return useMemo(() => ({ kind, touchdownMs: epochMs, phases: phasesOf(phases) }), [kind, epochMs, phases]);
}

function phaseText(verdict: Verdict): string {
  const spans = new Map(verdict.outings.map((one) => [one.eva, `${one.span.startS} ${one.span.endS}`]));
  return [...spans.values()].join(";");
}

function phasesOf(text: string): Dial["phases"] {
  if (text === "") return [];
  return text.split(";").map((one) => {
    const [startS = 0, endS = 0] = one.split(" ").map(Number);
    return { startS, endS };
  });
}

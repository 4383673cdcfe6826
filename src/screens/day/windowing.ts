import type { Verdict } from "../../answers/index.ts";
import {
  framing,
  panned,
  revealing,
  type TimeWindow,
  type WindowLimits,
  zoomed,
} from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { ViewStore } from "../viewstate.ts";

/** Where the day line may be looked at: the stay with half an hour around it, down to eight minutes. */
export function limitsOf(plan: Plan): WindowLimits {
  return { startS: -1800, endS: plan.stay.lengthS + 1800, leastS: 480 };
}

/** The stretch of an EVA worth seeing: as it is, else as it may be. */
export function evaSpan(plan: Plan, verdict: Verdict, index: number): TimeWindow | null {
  const eva = plan.evas[index];
  if (!eva) return null;
  const outing = verdict.outings.find((one) => one.eva === eva.id);
  return outing?.span ?? { startS: eva.earliestEgressS, endS: eva.latestIngressS };
}

/** A day is lost in a window of more than so many times its length. */
const LOST = 2;

/**
 * The window for a day that has just come on to an empty line: where it shows one EVA, in less than half of its width, that
 * outing. Else the window as it is.
 */
export function windowOnceOut(
  window: TimeWindow,
  before: { readonly verdict: Verdict },
  { plan, verdict }: { readonly plan: Plan; readonly verdict: Verdict },
): TimeWindow {
  if (before.verdict.outings.length > 0) return window;
  const shown = verdict.outings.filter(({ span }) => span.startS < window.endS && span.endS > window.startS);
  if (new Set(shown.map((one) => one.eva)).size !== 1) return window;
  const spans = shown.map((one) => one.span);
  const out = framing(spans, 0.03, limitsOf(plan));
  return (out.endS - out.startS) * LOST < window.endS - window.startS ? out : window;
}

/** Moves of the window, all inside the plan's limits. */
export interface Windowing {
  zoomAbout(atS: number, factor: number): void;
  panBy(seconds: number): void;
  panShare(share: number): void;
  whole(): void;
  eva(index: number): void;
  reveal(span: TimeWindow): void;
  /** Shows all of these spans. */
  frame(spans: readonly TimeWindow[]): void;
  /** A minute of time to a centimetre of screen, about `atS`. */
  centimetre(atS: number): void;
  show(window: TimeWindow): void;
}

/** CSS pixels of a centimetre. */
const CENTIMETRE_PX = 96 / 2.54;
/** Taken for the width of a line that is not laid out yet. */
const NO_LINE_PX = 1200;

export function windowing(
  view: ViewStore,
  plan: () => Plan,
  verdict: () => Verdict,
  widthPx: () => number | undefined = () => undefined,
): Windowing {
  const set = (window: TimeWindow): void => {
    if (window !== view.getState().window) view.setState({ window });
  };
  const now = (): TimeWindow => view.getState().window;
  const lengthS = (): number => now().endS - now().startS;
  return {
    zoomAbout: (atS, factor) => set(zoomed(now(), atS, factor, limitsOf(plan()))),
    panBy: (seconds) => set(panned(now(), seconds, limitsOf(plan()))),
    panShare: (share) => set(panned(now(), share * lengthS(), limitsOf(plan()))),
    whole: () => set(framing([{ startS: 0, endS: plan().stay.lengthS }], 0.01, limitsOf(plan()))),
    eva(index) {
      const span = evaSpan(plan(), verdict(), index);
      if (span) set(framing([span], 0.03, limitsOf(plan())));
    },
    reveal: (span) => set(revealing(now(), span, limitsOf(plan()))),
    frame: (spans) => set(framing(spans, 0.08, limitsOf(plan()))),
    centimetre(atS) {
      const wanted = ((widthPx() ?? NO_LINE_PX) / CENTIMETRE_PX) * 60;
      set(zoomed(now(), atS, wanted / lengthS(), limitsOf(plan())));
    },
    show: (window) => set(panned(window, 0, limitsOf(plan()))),
  };
}

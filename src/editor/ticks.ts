import { clock, type Phase, phaseAt, utcClock, utcDay } from "../words/index.ts";
import type { TimeScale } from "./scale.ts";

/** A mark on an axis. Major ones carry the label in strong type. */
export interface Tick {
  readonly atS: number;
  readonly label: string;
  readonly major: boolean;
}

const DAY_S = 86_400;

/** The steps a person counts time in, with the step whose multiples are major, seconds. */
const STEPS: readonly (readonly [step: number, major: number])[] = [
  [60, 300],
  [300, 1800],
  [600, 3600],
  [900, 3600],
  [1800, 3600],
  [3600, 21_600],
  [7200, 21_600],
  [10_800, 43_200],
  [21_600, DAY_S],
  [43_200, DAY_S],
  [DAY_S, 7 * DAY_S],
];

/** Ticks of mission elapsed time, at least `leastPx` apart, on the smallest human step that allows it. */
export function metTicks(scale: TimeScale, leastPx: number): readonly Tick[] {
  const { window, pxPerS } = scale;
  const fitting = STEPS.find(([step]) => step * pxPerS >= leastPx);
  const [step, major] = fitting ?? coarse(leastPx / pxPerS);
  const ticks: Tick[] = [];
  for (let n = Math.ceil(window.startS / step); n * step <= window.endS; n += 1) {
    const atS = n * step;
    ticks.push({ atS, label: clock(atS), major: atS % major === 0 });
  }
  return ticks;
}

/**
 * Ticks of phase elapsed time: in each EVA counted from its egress, which carries the EVA's name, none between EVAs.
 * While two are out the axis goes on with the first.
 */
export function petTicks(scale: TimeScale, phases: readonly Phase[], leastPx: number): readonly Tick[] {
  const [step, major] =
    STEPS.find(([one]) => one * scale.pxPerS >= leastPx) ?? coarse(leastPx / scale.pxPerS);
  return phases.flatMap((phase) => {
    const ticks: Tick[] = [];
    const from = Math.max(0, scale.window.startS - phase.startS);
    const to = Math.min(phase.endS, scale.window.endS) - phase.startS;
    for (let n = Math.ceil(from / step); n * step <= to; n += 1) {
      const atS = phase.startS + n * step;
      if (phaseAt(phases, atS) !== phase) continue;
      const label = n === 0 ? `${phase.name} ${clock(0)}` : clock(n * step);
      ticks.push({ atS, label, major: (n * step) % major === 0 });
    }
    return ticks;
  });
}

/** Ticks of universal time at round clock times; midnight is major and carries the day. `touchdownMs` since 1970; none where it is null. */
export function utcTicks(scale: TimeScale, touchdownMs: number | null, leastPx: number): readonly Tick[] {
  if (touchdownMs === null) return [];
  const { window, pxPerS } = scale;
  const [step] = STEPS.find(([one]) => one * pxPerS >= leastPx) ?? coarse(leastPx / pxPerS);
  // Steps divide a day or are whole days, and days begin where 1970 did.
  const zeroS = touchdownMs / 1000;
  const ticks: Tick[] = [];
  for (let n = Math.ceil((zeroS + window.startS) / step); n * step <= zeroS + window.endS; n += 1) {
    const atS = n * step - zeroS;
    const midnight = (n * step) % DAY_S === 0;
    const label = midnight ? utcDay(touchdownMs, atS) : utcClock(touchdownMs, atS);
    ticks.push({ atS, label, major: midnight });
  }
  return ticks;
}

/** Whole days where even the largest step is too dense. */
function coarse(leastS: number): readonly [step: number, major: number] {
  const days = Math.max(1, Math.ceil(leastS / DAY_S));
  return [days * DAY_S, days * 10 * DAY_S];
}

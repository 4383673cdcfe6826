import { homeY, type Lane, type TimeScale } from "../../../editor/index.ts";
import type { Plan, Task } from "../../../plan/index.ts";
import { clock } from "../../../words/index.ts";
import { font } from "../../parts/canvas/brush.ts";
import { shows } from "./geometry.ts";
import type { Box } from "./names/place.ts";

/** The face of words at the head of windows, and how high they stand there, pixels. */
export const WINDOW_FACE = font(12, 620);
export const WINDOW_WORDS_PX = 16;

/** A window of a task on a scale, pixels, with the words at its head. */
export interface WindowShown {
  readonly left: number;
  readonly right: number;
  readonly text: string;
  /** Width of the words; 0 where the window is too narrow for them. */
  readonly widePx: number;
}

/** Where a task may be, as far as a scale shows it: its own windows, or relay passes when it needs one. */
export function windowsShown(
  plan: Plan,
  task: Task,
  scale: TimeScale,
  textPx: (text: string) => number,
): readonly WindowShown[] {
  const passes = task.relay ? plan.stay.relayPasses : [];
  const spans = [
    ...task.windows.map((one) => ({ ...one, word: "window" })),
    ...passes.map((one) => ({ ...one, word: "relay" })),
  ];
  return spans
    .filter((span) => shows(scale, span))
    .map(({ startS, endS, word }) => {
      const [left, right] = [scale.x(startS), scale.x(endS)];
      const text = `${word} ${clock(startS)} to ${clock(endS)}`;
      const widePx = textPx(text) + 8;
      return { left, right, text, widePx: right - left > widePx ? widePx : 0 };
    });
}

/** The room of these words on a lane: they stand at the top of all lanes, so on others there is none. */
export function windowBoxes(windows: readonly WindowShown[], lane: Lane): readonly Box[] {
  if (lane.topPx >= WINDOW_WORDS_PX) return [];
  const home = homeY(lane);
  const outs = [Math.abs(home), Math.abs(WINDOW_WORDS_PX - home)];
  return windows
    .filter(({ widePx }) => widePx > 0)
    .map(({ left, widePx }) => ({
      x0: left,
      x1: left + widePx,
      out0: Math.min(...outs),
      out1: Math.max(...outs),
    }));
}

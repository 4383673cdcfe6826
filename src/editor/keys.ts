import { gridFrom, gridTo } from "../kernel/index.ts";
import { type Lane, crewLaneBeside, REMOTE } from "./lanes.ts";
import type { Target } from "./propose.ts";
import { startsIn } from "./snap.ts";

/** A key and what is pressed with it. */
export interface KeyPress {
  readonly key: string;
  readonly shift: boolean;
}

export type KeyStep =
  { readonly act: "move"; readonly target: Target } | { readonly act: "commit" | "cancel" | "none" };

/** What the task in hand can be moved to by jumps: starts that fit on a lane, ascending. */
export type FittingStarts = (lane: string) => readonly number[];

const STEP_S = 60;
const LONG_STEP_S = 600;

/**
 * What a key does to a task in hand: arrows move by a minute, with shift by ten, or by the next whole number of steps of the plan's grid,
 * and from beside the grid onto it; up and down change the lane, page keys
 * jump to the next start that fits, home and end to the first and last that fit; B offers the bench; Enter or space
 * commits, Escape cancels. `lineStart` is where a task comes to lie when it leaves the bench.
 */
export function keyStep(
  target: Target,
  press: KeyPress,
  lanes: readonly Lane[],
  fitting: FittingStarts,
  lineStart: { readonly lane: string; readonly startS: number },
  gridS: number,
): KeyStep {
  const to = (next: Target): KeyStep => ({ act: "move", target: next });
  const line = target.at === "line" ? target : { at: "line" as const, ...lineStart };
  const shifted = (sign: -1 | 1): KeyStep => {
    const byS = sign * gridFrom(press.shift ? LONG_STEP_S : STEP_S, gridS);
    const onto = sign > 0 ? gridTo : gridFrom;
    return to(target.at === "line" ? { ...line, startS: onto(line.startS, gridS) + byS } : line);
  };
  const jump = (pick: (starts: readonly number[]) => number | undefined): KeyStep => {
    const startS = pick(fitting(line.lane));
    return startS === undefined ? { act: "none" } : to({ ...line, startS });
  };
  switch (press.key) {
    case "ArrowLeft":
      return shifted(-1);
    case "ArrowRight":
      return shifted(1);
    case "ArrowUp":
    case "ArrowDown": {
      if (target.at === "bench") return to(line);
      if (line.lane === REMOTE) return { act: "none" };
      const lane = crewLaneBeside(lanes, line.lane, press.key === "ArrowUp" ? -1 : 1);
      return lane && lane.key !== line.lane ? to({ ...line, lane: lane.key }) : { act: "none" };
    }
    case "PageDown":
      return jump((starts) => starts.find((one) => one > line.startS));
    case "PageUp":
      return jump((starts) => starts.findLast((one) => one < line.startS));
    case "Home":
      return jump((starts) => starts[0]);
    case "End":
      return jump((starts) => starts.at(-1));
    case "b":
    case "B":
      return to(target.at === "bench" ? line : { at: "bench" });
    case "Enter":
    case " ":
      return { act: "commit" };
    case "Escape":
      return { act: "cancel" };
    default:
      return { act: "none" };
  }
}

/** The edges of the bands that fit on `lane`, inside them on the grid where it meets them, ascending, each once. */
export function fittingStarts(
  bands: readonly {
    readonly crew: readonly string[];
    readonly fixed: readonly { readonly startS: number; readonly endS: number }[];
  }[],
  lane: string,
  gridS: number,
): readonly number[] {
  const edges = bands
    .filter((band) => lane === REMOTE || band.crew.includes(lane))
    .flatMap((band) =>
      band.fixed.flatMap((fit) => {
        const { firstS, lastS } = startsIn(fit, gridS);
        return [firstS, lastS];
      }),
    );
  return [...new Set(edges)].toSorted((a, b) => a - b);
}

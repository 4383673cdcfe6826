import { draw, type Random, type Shape } from "../../kernel/index.ts";
import type { Draws } from "./player.ts";
import type { Script } from "./script.ts";

/** The drawn days of a run, all kept, so that a day can be played again with one thing changed. */
export class Sampling {
  private readonly script: Script;
  private readonly shape: Shape;
  private readonly durationS: Int32Array;
  private readonly slotMore: Float32Array;
  private readonly routeMore: Float32Array;
  private readonly spreadOfSlot: Float64Array;
  private readonly spreadOfRoute: Float64Array;
  /** The day last drawn or recalled. */
  readonly today: Draws;

  constructor(script: Script, shape: Shape, days: number) {
    const { problem, laneOf } = script;
    this.script = script;
    this.shape = shape;
    this.durationS = new Int32Array(days * problem.activities);
    this.slotMore = new Float32Array(days * problem.slots);
    this.routeMore = new Float32Array(days * problem.routes);
    const spreadOf = (route: number): number =>
      problem.plan.crew[problem.memberOfRoute[route]!]!.workRateSpread;
    this.spreadOfSlot = Float64Array.from(laneOf, (lane) =>
      lane >= 0 && lane < problem.routes ? spreadOf(lane) : 0,
    );
    this.spreadOfRoute = Float64Array.from({ length: problem.routes }, (_, r) => spreadOf(r));
    this.today = {
      durationS: new Int32Array(problem.activities),
      slotMore: new Float32Array(problem.slots),
      routeMore: new Float32Array(problem.routes),
    };
  }

  /** Draws day number `day` from `stream`. */
  draw(day: number, stream: Random): void {
    const { script, shape, today } = this;
    const { problem, order, lowS, highS } = script;
    for (let p = 0; p < order.length; p += 1) {
      const a = order[p]!;
      // The begun second is counted whole: never shorter than drawn.
      today.durationS[a] = Math.ceil(draw(shape, lowS[a]!, problem.lengthS[a]!, highS[a]!, stream));
    }
    for (let s = 0; s < problem.slots; s += 1) {
      const wide = this.spreadOfSlot[s]!;
      if (wide > 0) today.slotMore[s] = draw(shape, -wide, 0, wide, stream);
    }
    for (let r = 0; r < problem.routes; r += 1) {
      const wide = this.spreadOfRoute[r]!;
      if (wide > 0) today.routeMore[r] = draw(shape, -wide, 0, wide, stream);
    }
    this.durationS.set(today.durationS, day * problem.activities);
    this.slotMore.set(today.slotMore, day * problem.slots);
    this.routeMore.set(today.routeMore, day * problem.routes);
  }

  /** Day number `day` again. */
  recall(day: number): Draws {
    const { today } = this;
    const { problem } = this.script;
    copy(today.durationS, this.durationS, day * problem.activities);
    copy(today.slotMore, this.slotMore, day * problem.slots);
    copy(today.routeMore, this.routeMore, day * problem.routes);
    return today;
  }
}

function copy<T extends Int32Array | Float32Array>(into: T, from: T, at: number): void {
  for (let i = 0; i < into.length; i += 1) into[i] = from[at + i]!;
}

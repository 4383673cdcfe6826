import { stops } from "../../terrain/index.ts";
import type { Board } from "../board.ts";
import { backS } from "./outing.ts";

/** Where one crew member is over an outing: moves between places; between two moves they stand still. */
export class Itinerary {
  count = 0;
  startS: Float64Array;
  endS: Float64Array;
  from: Int32Array;
  to: Int32Array;
  /** Slot whose activity is done when the move begins; -1 for a move inside an activity. */
  slot: Int32Array;

  constructor(room: number) {
    this.startS = new Float64Array(room);
    this.endS = new Float64Array(room);
    this.from = new Int32Array(room);
    this.to = new Int32Array(room);
    this.slot = new Int32Array(room);
  }

  /** Reads route `r` with its activities at their earliest starts and egress at `egressS`. */
  read(board: Board, r: number, egressS: number): void {
    const { problem, next, nodeOf, earliest } = board;
    const { lengthS, endsAt, beginsAt, places, ways } = problem;
    const legs = problem.legS[r]!;
    this.count = 0;
    const tail = board.tail + r;
    let slot = board.head + r;
    let place = problem.lander;
    let atS = egressS + lengthS[nodeOf[slot]!]!;
    for (let s = next[slot]!; ; s = next[s]!) {
      const node = nodeOf[s]!;
      const to = beginsAt[node]!;
      const cell = place * places + to;
      if (to !== place) {
        if (ways.via[cell]! < 0) this.add(atS, atS + legs[cell]!, place, to, slot);
        else this.addHops(board, atS, place, to, slot);
      }
      if (s === tail) return;
      const startS = s === tail ? backS(board, problem.evaOfRoute[r]!) : earliest[node]!;
      atS = startS + lengthS[node]!;
      place = endsAt[node]!;
      if (place !== to) this.add(startS, atS, to, place, -1 - s);
      slot = s;
    }
  }

  private addHops(board: Board, fromS: number, from: number, to: number, slot: number): void {
    const { ways } = board.problem;
    const path = stops(ways, from, to);
    let atS = fromS;
    for (let k = 1; k < path.length; k += 1) {
      const endS = atS + ways.durationS[path[k - 1]! * ways.size + path[k]!]!;
      this.add(atS, endS, path[k - 1]!, path[k]!, slot);
      atS = endS;
    }
  }

  private add(startS: number, endS: number, from: number, to: number, slot: number): void {
    const k = this.count;
    if (k === this.startS.length) this.grow();
    this.startS[k] = startS;
    this.endS[k] = endS;
    this.from[k] = from;
    this.to[k] = to;
    this.slot[k] = slot;
    this.count += 1;
  }

  private grow(): void {
    const room = this.startS.length * 2;
    const wider = <T extends Float64Array | Int32Array>(old: T, made: T): T => {
      made.set(old);
      return made;
    };
    this.startS = wider(this.startS, new Float64Array(room));
    this.endS = wider(this.endS, new Float64Array(room));
    this.from = wider(this.from, new Int32Array(room));
    this.to = wider(this.to, new Int32Array(room));
    this.slot = wider(this.slot, new Int32Array(room));
  }
}

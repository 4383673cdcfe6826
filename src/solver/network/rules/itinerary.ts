import { courseOf, type Point, stops } from "../../../terrain/index.ts";
import type { Board } from "../board.ts";
import { backS } from "./outing.ts";

/** Where one crew member is over an outing: moves between places; between two moves they stand still. */
export class Itinerary {
  count = 0;
  startS: Float64Array;
  endS: Float64Array;
  /** Places between which the way leads that a move belongs to. */
  from: Int32Array;
  to: Int32Array;
  /** Where the move itself begins and ends. */
  fromEast: Float64Array;
  fromNorth: Float64Array;
  toEast: Float64Array;
  toNorth: Float64Array;
  /** The activity that a move is part of, -1 for a way; and how far from its line it may lead, m. */
  activity: Int32Array;
  roamM: Float64Array;
  /** Slot whose activity is done when the move begins; -1 for a move inside an activity. */
  slot: Int32Array;

  constructor(room: number) {
    this.startS = new Float64Array(room);
    this.endS = new Float64Array(room);
    this.from = new Int32Array(room);
    this.to = new Int32Array(room);
    this.slot = new Int32Array(room);
    this.activity = new Int32Array(room);
    this.roamM = new Float64Array(room);
    this.fromEast = new Float64Array(room);
    this.fromNorth = new Float64Array(room);
    this.toEast = new Float64Array(room);
    this.toNorth = new Float64Array(room);
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
        if (ways.via[cell]! < 0) this.go(board, atS, atS + legs[cell]!, place, to, slot);
        else this.addHops(board, atS, place, to, slot);
      }
      if (s === tail) return;
      const startS = s === tail ? backS(board, problem.evaOfRoute[r]!) : earliest[node]!;
      atS = startS + lengthS[node]!;
      place = endsAt[node]!;
      // Who may be led off their place is on the move for the whole task.
      if (place !== to || problem.roamM[node]! > 0) this.go(board, startS, atS, to, place, -1 - s, node);
      slot = s;
    }
  }

  private addHops(board: Board, fromS: number, from: number, to: number, slot: number): void {
    const { ways } = board.problem;
    const path = stops(ways, from, to);
    let atS = fromS;
    for (let k = 1; k < path.length; k += 1) {
      const endS = atS + ways.durationS[path[k - 1]! * ways.size + path[k]!]!;
      this.go(board, atS, endS, path[k - 1]!, path[k]!, slot);
      atS = endS;
    }
  }

  /** From place to place: straight on, or over a height grid along the way. */
  private go(
    board: Board,
    startS: number,
    endS: number,
    from: number,
    to: number,
    slot: number,
    activity = -1,
  ): void {
    const { ways, places: size, plan } = board.problem;
    const { places } = plan.site;
    const straight = from === to || (ways.trails === null && ways.via[from * size + to]! < 0);
    const course = straight ? null : courseOf(ways, places, from * size + to, endS - startS);
    if (!course) {
      this.add(startS, endS, from, to, places[from]!, places[to]!, slot, board, activity);
      return;
    }
    const { points, atS } = course;
    for (let k = 1; k < points.length; k += 1)
      this.add(
        startS + atS[k - 1]!,
        startS + atS[k]!,
        from,
        to,
        points[k - 1]!,
        points[k]!,
        slot,
        board,
        activity,
      );
  }

  private add(
    startS: number,
    endS: number,
    from: number,
    to: number,
    begin: Point,
    end: Point,
    slot: number,
    board: Board,
    activity: number,
  ): void {
    const k = this.count;
    if (k === this.startS.length) this.grow();
    this.startS[k] = startS;
    this.endS[k] = endS;
    this.from[k] = from;
    this.to[k] = to;
    this.fromEast[k] = begin.eastM;
    this.fromNorth[k] = begin.northM;
    this.toEast[k] = end.eastM;
    this.toNorth[k] = end.northM;
    this.slot[k] = slot;
    this.activity[k] = activity;
    this.roamM[k] = activity < 0 ? 0 : board.problem.roamM[activity]!;
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
    this.activity = wider(this.activity, new Int32Array(room));
    this.roamM = wider(this.roamM, new Float64Array(room));
    this.fromEast = wider(this.fromEast, new Float64Array(room));
    this.fromNorth = wider(this.fromNorth, new Float64Array(room));
    this.toEast = wider(this.toEast, new Float64Array(room));
    this.toNorth = wider(this.toNorth, new Float64Array(room));
  }
}

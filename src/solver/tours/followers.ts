import type { TourGround } from "./ground.ts";

/** What may follow a node, and how long after the node's end each of it is done at the soonest; the soonest done come first. */
export interface Following {
  readonly activities: Int32Array;
  readonly doneS: Int32Array;
}

/**
 * By route and node the activities that may stand right behind it, so that in a gap with so much time left only those are looked at that are
 * done in it. Worked out when a node is first asked for; routes with the same ways share what they have.
 */
export class Followers {
  private readonly ground: TourGround;
  private readonly byWays = new Map<Int32Array, (Following | undefined)[]>();
  private readonly byRoute: readonly (Following | undefined)[][];

  constructor(ground: TourGround) {
    this.ground = ground;
    this.byRoute = ground.goS.map((ways) => {
      const known = this.byWays.get(ways);
      if (known) return known;
      const made = new Array<Following | undefined>(ground.size).fill(undefined);
      this.byWays.set(ways, made);
      return made;
    });
  }

  /** What may stand behind `node` on route `r`. */
  of(r: number, node: number): Following {
    return (this.byRoute[r]![node] ??= this.follow(r, node));
  }

  private follow(r: number, node: number): Following {
    const { possible, size, fromS, toS, lander } = this.ground;
    const ways = this.ground.goS[r]!;
    const lasts = this.ground.lastsS[r]!;
    const isLander = node === lander;
    const keys = new Float64Array(possible.length);
    let count = 0;
    for (const a of possible) {
      const wayS = ways[node * size + a]!;
      if (a === node || (!isLander && fromS[node]! + lasts[node]! + wayS > toS[a]!)) continue;
      keys[count++] = (wayS + lasts[a]!) * size + a;
    }
    const sorted = keys.subarray(0, count).sort();
    const activities = Int32Array.from(sorted, (key) => key % size);
    return { activities, doneS: Int32Array.from(activities, (a) => ways[node * size + a]! + lasts[a]!) };
  }
}

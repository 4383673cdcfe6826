/** Refused places remembered at once; a power of two. */
const ROOM = 1 << 15;

/**
 * Places that a rule or the network refused while the order on their EVA was what it is: the same number of an order means the same
 * order, and a search comes back to it again and again. What other EVAs do may change meanwhile, so that a place may be passed over
 * that would hold now; each change of the order forgets it.
 */
export class Refusals {
  private readonly version = new Int32Array(ROOM);
  private readonly place = new Int32Array(ROOM);

  /** Remembers that `activity` does not go behind the slots `behind[0 .. slots - 1]` in the order `version`. */
  note(version: number, activity: number, behind: Int32Array, slots: number): void {
    const place = placeOf(activity, behind, slots);
    const at = (place ^ Math.imul(version, 0x9e3779b1)) & (ROOM - 1);
    this.version[at] = version;
    this.place[at] = place;
  }

  /** True when that is remembered. */
  knows(version: number, activity: number, behind: Int32Array, slots: number): boolean {
    const place = placeOf(activity, behind, slots);
    const at = (place ^ Math.imul(version, 0x9e3779b1)) & (ROOM - 1);
    return this.version[at] === version && this.place[at] === place;
  }
}

function placeOf(activity: number, behind: Int32Array, slots: number): number {
  let hash = activity + 1;
  for (let k = 0; k < slots; k += 1) hash = Math.imul(hash ^ (hash >>> 15), 0x85ebca6b) + behind[k]!;
  return hash ^ (hash >>> 13);
}

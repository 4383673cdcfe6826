import type { KeptState } from "./records.ts";

/** The room for the states of one plan, bytes of text, and how many there are at most. */
export const STATE_ROOM = { bytes: 24_000_000, count: 200 } as const;

/** What goes first when there is no room: what was kept by itself before what somebody named. */
const RANK = { hour: 0, opened: 0, pack: 1, merge: 1, sent: 2, left: 2, revision: 3 } as const;

/**
 * Which of a plan's states there is no room for: the oldest of those kept by themselves first, then files sent away,
 * then revisions. The newest state always stays.
 */
export function beyondRoom(states: readonly KeptState[], room = STATE_ROOM): readonly KeptState[] {
  const newest = states.toSorted((a, b) => b.atMs - a.atMs || b.key - a.key);
  const [first, ...others] = newest;
  if (!first) return [];
  let { bytes } = first;
  let count = 1;
  const gone: KeptState[] = [];
  for (const one of others.toSorted((a, b) => RANK[b.kind] - RANK[a.kind])) {
    if (count + 1 > room.count || bytes + one.bytes > room.bytes) gone.push(one);
    else {
      bytes += one.bytes;
      count += 1;
    }
  }
  return gone;
}

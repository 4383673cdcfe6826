import type { Rehearsal } from "../rehearsal/index.ts";
import type { Clock } from "./ports.ts";
import type { Archive } from "./shelf/records.ts";
import { storeTrouble } from "./shelf/storewords.ts";
import { alone, type Pen, type Windows } from "./shelf/windows.ts";

/** Keeps the rehearsal under way in the browser's store. */
export interface Keeper {
  /** Keeps all of it; nothing happens where there is none. */
  keep(): void;
  /** Keeps where the clock stands, once a second at most. */
  keepClock(): void;
  /** It is over: nothing is kept any more. */
  forget(): void;
}

const CLOCK_MS = 1000;
const SOON_MS = 400;
const ELSEWHERE = "Another window of this browser keeps a rehearsal, and one at a time is kept.";

/** What keeping needs from outside. */
export interface KeeperPorts {
  readonly archive: Pick<Archive, "readRehearsal" | "writeRehearsal" | "writeClock">;
  /** The other windows of this browser, of which one keeps its rehearsal; left out where there are none. */
  readonly windows?: Pick<Windows, "claim"> | undefined;
  readonly clock: Clock;
}

/** `told` is given why it is not kept, or null once it is. */
export function keeperOf(
  { archive, clock, windows }: KeeperPorts,
  rehearsal: {
    readonly now: () => { readonly rehearsal: Rehearsal } | null;
    readonly text: () => string | null;
    readonly told: (unkept: string | null) => void;
  },
): Keeper {
  let pen: Pen | null = null;
  let has = false;
  /** What waits behind the write under way; of several only the last counts. */
  let next: (() => Promise<void>) | null = null;
  let writing = false;
  let clockMs = -Infinity;

  const work = async (): Promise<void> => {
    if (writing) return;
    writing = true;
    for (let one = next; one; one = next) {
      next = null;
      try {
        await one();
        if (rehearsal.now()) rehearsal.told(null);
      } catch (error) {
        rehearsal.told(`The browser cannot keep it: ${storeTrouble(error)}.`);
      }
    }
    writing = false;
  };
  const keepText = async (): Promise<void> => {
    const text = rehearsal.text();
    if (text !== null) await archive.writeRehearsal(text);
  };

  /** Whether this window is the one that keeps its rehearsal. */
  const mayKeep = (): boolean => {
    const on = {
      has: () => {
        const late = pen !== null;
        has = true;
        if (!late) return;
        if (rehearsal.now()) keeper.keep();
        else keeper.forget();
      },
      lost: () => (has = false),
    };
    pen ??= windows ? windows.claim("rehearsal", on) : alone(on);
    // The pen may be on its way.
    if (!has)
      clock.after(SOON_MS, () => {
        if (!has && rehearsal.now()) rehearsal.told(ELSEWHERE);
      });
    return has;
  };

  const keeper: Keeper = {
    keep() {
      if (!rehearsal.now() || !mayKeep()) return;
      next = keepText;
      void work();
    },
    keepClock() {
      const now = rehearsal.now();
      // A whole rehearsal that waits to be written holds the clock too.
      if (!now || !has || next || clock.nowMs() - clockMs < CLOCK_MS) return;
      clockMs = clock.nowMs();
      const { calls, nowS } = now.rehearsal;
      next = () => archive.writeClock({ calls: calls.length, nowS });
      void work();
    },
    forget() {
      if (!mayKeep()) return;
      next = () => archive.writeRehearsal(null);
      void work();
    },
  };
  return keeper;
}

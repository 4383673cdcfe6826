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

/** Writes one after the other, of which only the last that waits counts; `done` is told of each, with what went wrong. */
function lastOnly(done: (trouble: { readonly error: unknown } | null) => void): {
  add(write: () => Promise<void>): void;
  /** True while one waits behind the write under way. */
  waits(): boolean;
} {
  let next: (() => Promise<void>) | null = null;
  let writing = false;
  const work = async (): Promise<void> => {
    if (writing) return;
    writing = true;
    for (let one = next; one; one = next) {
      next = null;
      try {
        await one();
        done(null);
      } catch (error) {
        done({ error });
      }
    }
    writing = false;
  };
  return {
    add(write) {
      next = write;
      void work();
    },
    waits: () => next !== null,
  };
}

/** `sayUnkept` is given why it is not kept, or null once it is. */
export function keeperOf(
  { archive, clock, windows }: KeeperPorts,
  rehearsal: {
    readonly now: () => { readonly rehearsal: Rehearsal } | null;
    readonly text: () => string | null;
    readonly sayUnkept: (unkept: string | null) => void;
  },
): Keeper {
  let pen: Pen | null = null;
  let has = false;
  let clockMs = -Infinity;
  const writes = lastOnly((trouble) => {
    if (trouble !== null) rehearsal.sayUnkept(`The browser cannot keep it: ${storeTrouble(trouble.error)}.`);
    else if (rehearsal.now()) rehearsal.sayUnkept(null);
  });
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
        if (!has && rehearsal.now()) rehearsal.sayUnkept(ELSEWHERE);
      });
    return has;
  };

  const keeper: Keeper = {
    keep() {
      if (!rehearsal.now() || !mayKeep()) return;
      writes.add(keepText);
    },
    keepClock() {
      const now = rehearsal.now();
      // A whole rehearsal that waits to be written holds the clock too.
      if (!now || !has || writes.waits() || clock.nowMs() - clockMs < CLOCK_MS) return;
      clockMs = clock.nowMs();
      const { calls, nowS } = now.rehearsal;
      writes.add(() => archive.writeClock({ calls: calls.length, nowS }));
    },
    forget() {
      if (!mayKeep()) return;
      writes.add(() => archive.writeRehearsal(null));
    },
  };
  return keeper;
}

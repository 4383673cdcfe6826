import type { HandedDay } from "../answers/index.ts";
import type { Schedule } from "../plan/index.ts";

/** Where the packs of a team tell each other of their days. */
export interface Meetings {
  /** Pack `k` hands its day on; the answer is a better one of another to go on from, null where its own is the best. */
  meet(k: number, handed: HandedDay): Promise<Schedule | null>;
  /** Pack `k` has come to its end: nobody waits for it any more. */
  leave(k: number): void;
}

/**
 * Meetings of `count` packs. Where they wait for each other, each hears of the same days whichever is done first; else of those that are
 * there already, so that nobody loses time.
 */
export function meetingsOf(count: number, waits: boolean): Meetings {
  const days = new Array<HandedDay | null>(count).fill(null);
  const away = new Set<number>();
  const waiting = new Map<number, () => void>();

  const ahead = (k: number): Schedule | null => {
    const best = days.reduce((a, b) => (b && (!a || isAhead(b, a)) ? b : a), null);
    const own = days[k];
    return best && own && isAhead(best, own) ? best.schedule : null;
  };
  const goOn = (): void => {
    if (waits && waiting.size + away.size < count) return;
    const all = [...waiting.values()];
    waiting.clear();
    for (const resolve of all) resolve();
  };

  return {
    meet: (k, handed) => {
      days[k] = handed;
      return new Promise((resolve) => {
        waiting.set(k, () => resolve(ahead(k)));
        goOn();
      });
    },
    leave: (k) => {
      away.add(k);
      goOn();
    },
  };
}

/** True where the day `a` is worth more than `b`, by the first number in which they differ. */
function isAhead(a: HandedDay, b: HandedDay): boolean {
  const at = a.value.findIndex((one, k) => one !== b.value[k]);
  return at >= 0 && a.value[at]! > b.value[at]!;
}

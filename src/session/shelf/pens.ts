import type { SessionPorts } from "../ports.ts";
import { alone, type Pen } from "./windows.ts";

/** Another window that has the pen is given so long to turn out to be gone, as one that is just being loaded anew, ms. */
const SOON_MS = 400;

/** The pens that this window has or has asked for: who has a plan's pen writes it. */
export interface Pens {
  /** Asks for the pen of a plan; whether this window has it soon. */
  hold(slot: string): Promise<boolean>;
  has(slot: string): boolean;
  release(slot: string): void;
  /** Releases all but that of one plan. */
  keepOnly(slot: string): void;
  /** Takes it over from the window that has it. */
  take(slot: string): void;
  /** Passes it to the window that asked for it. */
  pass(slot: string): void;
}

interface KeptPen {
  readonly pen: Pen;
  has: boolean;
}

/** `on` is told of every pen that comes and goes. */
export function pensOf(
  { windows, clock }: Pick<SessionPorts, "windows" | "clock">,
  on: { has(slot: string): void; lost(slot: string): void },
): Pens {
  const pens = new Map<string, KeptPen>();

  const claimed = (slot: string, has: boolean): void => {
    const mine = pens.get(slot);
    if (mine) mine.has = has;
  };
  const release = (slot: string): void => {
    pens.get(slot)?.pen.letGo();
    pens.delete(slot);
  };

  return {
    hold: (slot) =>
      new Promise((resolve) => {
        const known = pens.get(slot);
        if (known) return resolve(known.has);
        let has = false;
        const claim = {
          has: () => {
            has = true;
            claimed(slot, true);
            resolve(true);
            on.has(slot);
          },
          lost: () => {
            claimed(slot, false);
            on.lost(slot);
          },
        };
        clock.after(SOON_MS, () => resolve(pens.get(slot)?.has ?? false));
        const pen = windows ? windows.claim(slot, claim) : alone(claim);
        pens.set(slot, { pen, has });
      }),
    has: (slot) => pens.get(slot)?.has ?? false,
    release,
    keepOnly(slot) {
      for (const one of [...pens.keys()]) if (one !== slot) release(one);
    },
    take: (slot) => pens.get(slot)?.pen.take(),
    pass: (slot) => pens.get(slot)?.pen.pass(),
  };
}

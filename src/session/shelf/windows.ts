/** What the windows of one browser settle among each other: one of them writes a thing, the others follow. */
export interface Windows {
  /** Whether a pen is kept from all others for certain. */
  readonly exclusive: boolean;
  /** The slot that this window had open before it was loaded anew; null where it is new. */
  lastOpen(): string | null;
  setLastOpen(slot: string): void;
  /** Asks for the pen of `what`, of which there is one in the browser. The answer is how to give it back. */
  claim(what: string, on: Claim): Pen;
  /** Whether some window has the pen of `what`, this one too. */
  isTaken(what: string): Promise<boolean>;
  tell(word: Word): void;
  /** `heard` is told what other windows say. */
  listen(heard: (word: Word) => void): void;
}

export interface Claim {
  /** The pen is this window's from now on. */
  has(): void;
  /** Another window has taken it. It may come back with `has`. */
  lost(): void;
}

export interface Pen {
  /** Takes it from whoever has it. */
  take(): void;
  /** Lets the next one have it, and waits behind them. */
  pass(): void;
  letGo(): void;
}

/** saved: what is in the store is new. hand over: whoever writes should save and pass the pen. */
export interface Word {
  readonly what: string;
  readonly kind: "saved" | "hand over";
}

/** Who has the pen is given so long to save and pass it before it is taken, ms. */
const HAND_OVER_MS = 1500;
const MEMORY = "lopeline-slot";

/** The windows of this browser by Web Locks and a broadcast channel; where it has none of these, this window is alone. */
export function browserWindows(): Windows {
  const channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("lopeline");
  const locks = typeof navigator === "undefined" ? undefined : navigator.locks;
  const tell = (word: Word): void => channel?.postMessage(word);
  return {
    exclusive: locks !== undefined,
    lastOpen: () => quietly(() => sessionStorage.getItem(MEMORY)),
    setLastOpen: (slot) => void quietly(() => sessionStorage.setItem(MEMORY, slot)),
    claim: (what, on) => (locks ? penOf(locks, what, on, tell) : alone(on)),
    async isTaken(what) {
      const locked = (await locks?.query())?.held ?? [];
      return locked.some((one) => one.name === lockName(what));
    },
    tell,
    listen(heard) {
      channel?.addEventListener("message", (event: MessageEvent<Word>) => heard(event.data));
    },
  };
}

/** Where nobody can be asked, everybody writes; the store then sets aside what another had saved. */
export function alone(on: Claim): Pen {
  on.has();
  return { take: () => undefined, pass: () => undefined, letGo: () => undefined };
}

function lockName(what: string): string {
  return `lopeline ${what}`;
}

function penOf(locks: LockManager, what: string, on: Claim, tell: (word: Word) => void): Pen {
  let release: (() => void) | null = null;
  let waiting: AbortController | null = null;
  let over = false;

  const request = (options: LockOptions): void => {
    let granted = false;
    const untilReleased = (): Promise<void> =>
      new Promise((resolve) => {
        granted = true;
        waiting = null;
        release = resolve;
        if (over) resolve();
        else on.has();
      });
    /** The lock was given back, taken away, or is no longer waited for. */
    const ended = (): void => {
      if (!granted) return;
      release = null;
      if (over) return;
      on.lost();
      wait();
    };
    locks.request(lockName(what), options, untilReleased).then(ended, ended);
  };
  const wait = (): void => {
    const mine = new AbortController();
    waiting = mine;
    request({ signal: mine.signal });
  };
  const free = (): void => {
    const mine = release;
    if (mine) mine();
    else waiting?.abort();
  };
  wait();
  return {
    take() {
      if (release || over) return;
      tell({ what, kind: "hand over" });
      setTimeout(() => {
        if (release || over) return;
        waiting?.abort();
        request({ steal: true });
      }, HAND_OVER_MS);
    },
    pass: free,
    letGo() {
      over = true;
      free();
    },
  };
}

/** What a browser may forbid is done without. */
function quietly<Value>(work: () => Value): Value | null {
  try {
    return work();
  } catch {
    return null;
  }
}

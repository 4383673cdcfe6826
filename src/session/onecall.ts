/** Calls of the engine of which one at a time counts. */
export interface OneCall {
  /** True while a call is under way. */
  busy(): boolean;
  /** Breaks off the call under way: nothing of it is heard any more. False where there was none. */
  end(): boolean;
  /**
   * Makes a call, in place of the one under way. Either of `heard` is called once, when the call is over already; neither where it was
   * broken off. Settles when the call does, and never rejects.
   */
  ask<Answer>(call: Call<Answer>, heard: Heard<Answer>): Promise<void>;
}

/** Makes the call; what `whileLive` wraps hears nothing any more once the call was broken off or is over. */
type Call<Answer> = (signal: AbortSignal, whileLive: WhileLive) => Promise<Answer>;
type WhileLive = <News>(hear: (news: News) => void) => (news: News) => void;

interface Heard<Answer> {
  answered(answer: Answer): void;
  failed(error: unknown): void;
}

export function oneCall(): OneCall {
  let current: AbortController | null = null;

  const end = (): boolean => {
    const ended = current;
    current = null;
    ended?.abort();
    return ended !== null;
  };

  return {
    busy: () => current !== null,
    end,
    async ask(call, heard) {
      end();
      const mine = new AbortController();
      current = mine;
      const live = (): boolean => current === mine;
      try {
        const answer = await call(mine.signal, (hear) => (news) => {
          if (live()) hear(news);
        });
        if (!live()) return;
        current = null;
        heard.answered(answer);
      } catch (error) {
        if (!live()) return;
        current = null;
        heard.failed(error);
      }
    },
  };
}

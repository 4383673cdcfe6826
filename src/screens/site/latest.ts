import { useEffect, useRef, useState } from "react";

/** What the engine says, and what went wrong when it said nothing. */
export interface Latest<Answer> {
  readonly answer: Answer | null;
  readonly problem: string | null;
}

/**
 * What `find` finds, looked for again whenever it is another function: one question under way at a time, and after it
 * the newest one only, so that a fast hand never piles up work. The last answer stays until the next is there.
 */
export function useLatest<Answer>(find: (signal: AbortSignal) => Promise<Answer>): Latest<Answer> {
  const [latest, setLatest] = useState<Latest<Answer>>({ answer: null, problem: null });
  const queue = useRef<{ running: boolean; next: (() => void) | null }>({ running: false, next: null });
  useEffect(() => {
    const control = new AbortController();
    const waiting = queue.current;
    const run = (): void => {
      if (control.signal.aborted) return;
      waiting.running = true;
      // An overtaken answer is still shown when it comes: it is newer than what stands there.
      find(new AbortController().signal)
        .then(
          (answer) => setLatest({ answer, problem: null }),
          (error: unknown) =>
            setLatest((now) => ({ ...now, problem: error instanceof Error ? error.message : "unknown" })),
        )
        .finally(() => {
          waiting.running = false;
          const { next } = waiting;
          waiting.next = null;
          next?.();
        });
    };
    if (waiting.running) waiting.next = run;
    else run();
    return () => control.abort();
  }, [find]);
  return latest;
}

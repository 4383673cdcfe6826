import { useCallback, useEffect, useState } from "react";
import { type Card, wordsOf } from "../../session/index.ts";
import { useApp } from "../context.ts";

/** Does something with the store, says how it went in the words that it answers, and reads the shelf anew. */
export type Act = (work: () => Promise<string | null>) => Promise<void>;

/** What lies on the shelf, and what came of the last thing done with it. */
export interface ShelfWork {
  /** Null until the store is read, and where it cannot be. */
  readonly cards: readonly Card[] | null;
  /** Why the store cannot be read; null when it can. */
  readonly problem: string | null;
  readonly notice: string;
  readonly act: Act;
}

export function useShelfWork(): ShelfWork {
  const { session } = useApp();
  const [found, setFound] = useState<Pick<ShelfWork, "cards" | "problem">>({ cards: null, problem: null });
  const [notice, say] = useState("");
  const read = useCallback(
    () =>
      session.shelf().then(
        (cards) => setFound({ cards, problem: null }),
        (error: unknown) => setFound({ cards: null, problem: wordsOf(error) }),
      ),
    [session],
  );
  useEffect(() => void read(), [read]);
  const act: Act = async (work) => {
    try {
      const words = await work();
      if (words !== null) say(words);
      await read();
    } catch (error) {
      say(`That did not work: ${wordsOf(error)}.`);
    }
  };
  return { ...found, notice, act };
}

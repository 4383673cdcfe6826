import { useEffect, useState } from "react";
import { wordsOf } from "../../session/index.ts";

/** What was asked for: nothing yet, why it could not be had, or the answer. */
export type Found<Answer> = { readonly answer: Answer } | { readonly problem: string } | null;

/** What `find` finds, looked for again whenever it is another function; the last one stays until the next is there. */
export function useFound<Answer>(find: () => Promise<Answer>): Found<Answer> {
  const [found, setFound] = useState<Found<Answer>>(null);
  useEffect(() => {
    let gone = false;
    find().then(
      (answer) => {
        if (!gone) setFound({ answer });
      },
      (error: unknown) => {
        if (!gone) setFound({ problem: wordsOf(error) });
      },
    );
    return () => {
      gone = true;
    };
  }, [find]);
  return found;
}

import { useState } from "react";
import { useApp, useSession } from "../context.ts";
import { CREW_SETS, type CrewSet, hinderedSet, withCrewSet } from "./crewsets.ts";
import { sentence } from "../fields/draft.ts";
import type { Word } from "./gridhands.ts";

/** Puts a whole crew with suits and EVAs in place of the plan's, as one step. */
export function CrewChoice() {
  const { session } = useApp();
  const plan = useSession((state) => state.plan);
  const [word, setWord] = useState<Word | null>(null);
  const choose = (set: CrewSet): void => {
    const disabledReason = hinderedSet(plan, set);
    if (disabledReason !== null) return setWord({ refused: true, text: disabledReason });
    const put = session.edit(`Begin with ${set.name.toLowerCase()}`, () => withCrewSet(set));
    setWord(
      put.ok
        ? { refused: false, text: `${set.name}, with a suit for each: now in the plan.` }
        : { refused: true, text: sentence(put.error[0]?.message ?? "The plan cannot take it.") },
    );
  };
  return (
    <div className="crew-sets">
      <b id="crew-sets">Begin with a whole crew</b>
      <div className="pair" role="group" aria-labelledby="crew-sets">
        {CREW_SETS.map((set) => (
          <button key={set.id} type="button" onClick={() => choose(set)}>
            {set.name}
          </button>
        ))}
      </div>
      <p className="note">
        In place of this crew, its suits and all EVAs, with round numbers to begin with; one step that can be
        undone.
      </p>
      {word !== null && (
        <p className={word.refused ? "state breach" : "note"} role={word.refused ? "alert" : "status"}>
          {word.text}
        </p>
      )}
    </div>
  );
}

import { useEffect, useState } from "react";
import { type Card, type KeptState, STATE_ROOM } from "../../session/index.ts";
import { sizeWords } from "../parts/keptwords.ts";
import { useAround } from "../context.ts";
import { AuthorField } from "../parts/said/author.tsx";
import type { Act } from "./plancard.tsx";
import { momentWords, stateWords } from "./shelfwords.ts";

/** The states of a plan to go back to, and for the open one a new revision. */
export function States(props: {
  readonly card: Card;
  readonly open: boolean;
  readonly act: Act;
  readonly close: () => void;
}) {
  const { card, open, act, close } = props;
  const { desk } = useAround();
  const [states, setStates] = useState<readonly KeptState[]>([]);
  const [count, again] = useState(0);
  useEffect(() => {
    // Where the store cannot be used, the shelf says so.
    desk.statesOf(card.slot).then(setStates, () => undefined);
  }, [desk, card.slot, count]);

  return (
    <>
      <h3>States of {card.title}</h3>
      {open && (
        <Revision
          onKeep={(name, note) =>
            void act(async () => {
              const made = await desk.keepRevision({ name, note });
              again(count + 1);
              return made.ok ? `Revision ${name} is kept.` : `Not kept: ${made.error[0]?.message ?? ""}.`;
            })
          }
        />
      )}
      <ul className="shelf-states" aria-label={`States of ${card.title} to go back to`}>
        {states.map((one) => (
          <li key={one.key}>
            <div>
              <b>{stateWords(one)}</b>
              {one.note !== "" && <span>{one.note}</span>}
              <span className="note">
                {momentWords(one.atMs)}
                {one.author !== "" && `, by ${one.author}`}
              </span>
            </div>
            <div className="pair">
              <button
                type="button"
                disabled={!open}
                title={open ? undefined : "Open the plan first, or open the state as a copy."}
                onClick={() =>
                  void act(async () => {
                    if (!(await desk.goBackTo(one.key))) return "This state cannot be read.";
                    close();
                    return null;
                  })
                }
              >
                Go back
                <span className="unseen">
                  {" "}
                  to {stateWords(one)}, {momentWords(one.atMs)}
                </span>
              </button>
              <button
                type="button"
                onClick={() =>
                  void act(async () => {
                    if (!(await desk.openCopy({ state: one.key }))) return "This state cannot be read.";
                    close();
                    return null;
                  })
                }
              >
                Open a copy
                <span className="unseen">
                  {" "}
                  of {stateWords(one)}, {momentWords(one.atMs)}
                </span>
              </button>
            </div>
          </li>
        ))}
      </ul>
      <p className="note">
        {states.length === 0 && "None yet. "}
        Kept when it is opened, after each pack, once an hour, and as a revision wherever it is named. Up to{" "}
        {STATE_ROOM.count} states and {sizeWords(STATE_ROOM.bytes)} a plan; beyond that the oldest go,
        revisions last.
      </p>
    </>
  );
}

function Revision({ onKeep }: { readonly onKeep: (name: string, note: string) => void }) {
  const [name, setName] = useState("");
  const [note, setNote] = useState("");
  return (
    <form
      className="shelf-revision"
      aria-label="Keep a revision"
      onSubmit={(event) => {
        event.preventDefault();
        if (name.trim() === "") return;
        onKeep(name.trim(), note.trim());
        setName("");
        setNote("");
      }}
    >
      <label>
        Revision
        <input value={name} maxLength={24} onChange={(event) => setName(event.target.value)} />
      </label>
      <AuthorField label="By" />
      <label className="wide">
        What is new in it
        <input value={note} maxLength={240} onChange={(event) => setNote(event.target.value)} />
      </label>
      <button type="submit" aria-disabled={name.trim() === ""}>
        Keep revision
      </button>
    </form>
  );
}

import { useEffect, useState } from "react";
import { type Card, type KeptState, STATE_ROOM } from "../../session/index.ts";
import { sizeWords } from "../../words/index.ts";
import { useApp } from "../context.ts";
import { AuthorField } from "../parts/remarks/author.tsx";
import { momentWords } from "../parts/moment.ts";
import { stateWords } from "./shelfwords.ts";
import type { Act } from "./shelfwork.ts";

/** The states of a plan to go back to, and for the open one a new revision. */
export function States(props: {
  readonly card: Card;
  readonly open: boolean;
  readonly act: Act;
  readonly close: () => void;
}) {
  const { card, open, act, close } = props;
  const { session } = useApp();
  const [states, setStates] = useState<readonly KeptState[]>([]);
  const [count, again] = useState(0);
  useEffect(() => {
    // Where the store cannot be used, the shelf says so.
    session.statesOf(card.slot).then(setStates, () => undefined);
  }, [session, card.slot, count]);

  const openState = (work: () => Promise<boolean>): void =>
    void act(async () => {
      if (!(await work())) return "This state cannot be read.";
      close();
      return null;
    });

  return (
    <>
      <h3>States of {card.title}</h3>
      {open && (
        <Revision
          onKeep={(name, note) =>
            void act(async () => {
              const made = await session.keepRevision({ name, note });
              again(count + 1);
              return made.ok ? `Revision ${name} is kept.` : `Not kept: ${made.error[0]?.message ?? ""}.`;
            })
          }
        />
      )}
      <ul className="shelf-states" aria-label={`States of ${card.title} to go back to`}>
        {states.map((one) => (
          <StateRow
            key={one.key}
            state={one}
            open={open}
            onBack={() => openState(() => session.goBackTo(one.key))}
            onCopy={() => openState(() => session.openCopy({ state: one.key }))}
          />
        ))}
      </ul>
      <p className="note">
        {states.length === 0 && "None yet. "}
        Kept when it is opened again, after each pack, before each merge, when it is saved to a file, once an
        hour, and as a revision wherever it is named. Up to {STATE_ROOM.count} states and{" "}
        {sizeWords(STATE_ROOM.bytes)} a plan; beyond that the oldest go, revisions last.
      </p>
    </>
  );
}

/** A state with when and whose it is; only the open plan goes back to one. */
function StateRow(props: {
  readonly state: KeptState;
  readonly open: boolean;
  readonly onBack: () => void;
  readonly onCopy: () => void;
}) {
  const { state, open, onBack, onCopy } = props;
  const words = `${stateWords(state)}, ${momentWords(state.atMs)}`;
  return (
    <li>
      <div>
        <b>{stateWords(state)}</b>
        {state.note !== "" && <span>{state.note}</span>}
        <span className="note">
          {momentWords(state.atMs)}
          {state.author !== "" && `, by ${state.author}`}
        </span>
      </div>
      <div className="pair">
        <button
          type="button"
          disabled={!open}
          title={open ? undefined : "Open the plan first, or open the state as a copy."}
          onClick={onBack}
        >
          Go back<span className="unseen"> to {words}</span>
        </button>
        <button type="button" onClick={onCopy}>
          Open a copy<span className="unseen"> of {words}</span>
        </button>
      </div>
    </li>
  );
}

/** Names the plan as it is. */
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
      <label>
        What is new in it
        <input value={note} maxLength={240} onChange={(event) => setNote(event.target.value)} />
      </label>
      <button
        type="submit"
        aria-disabled={name.trim() === ""}
        title={name.trim() === "" ? "Name the revision first." : undefined}
      >
        Keep revision
      </button>
    </form>
  );
}

import "./shelf.css";
import { useCallback, useEffect, useRef, useState } from "react";
import { type Card, wordsOf } from "../../session/index.ts";
import { counted } from "../../words/index.ts";
import { sizeWords } from "../parts/keptwords.ts";
import { useAround, useDesk } from "../context.ts";
import { chooseFile } from "../parts/files.ts";
import { Compare } from "./compare.tsx";
import { Merging } from "./merging.tsx";
import { PlanCard } from "./plancard.tsx";
import { States } from "./states.tsx";

/** What is known of the shelf: nothing yet, why it cannot be read, or what lies on it. */
type Found = { readonly cards: readonly Card[] } | { readonly problem: string } | null;

/** The plans in this browser: opened, copied, renamed, put away; and the states of the chosen one. */
export function Shelf() {
  const { desk, look } = useAround();
  const ref = useRef<HTMLDialogElement>(null);
  const open = useDesk((state) => state.slot);
  const [found, setFound] = useState<Found>(null);
  const [bin, showBin] = useState(false);
  const [chosen, choose] = useState(open);
  const [said, say] = useState("");
  const [merging, merge] = useState<File | null>(null);

  const read = useCallback(
    () =>
      desk.shelf().then(
        (cards) => setFound({ cards }),
        (error: unknown) => setFound({ problem: wordsOf(error) }),
      ),
    [desk],
  );
  useEffect(() => {
    ref.current?.showModal();
    void read();
  }, [read]);

  const close = (): void => ref.current?.close();
  /** Does something with the store, says how it went, and reads anew. */
  const act = async (work: () => Promise<string | null>): Promise<void> => {
    try {
      const words = await work();
      if (words !== null) say(words);
      await read();
    } catch (error) {
      say(`That did not work: ${wordsOf(error)}.`);
    }
  };

  const cards = found !== null && "cards" in found ? found.cards : [];
  const binned = cards.filter((one) => one.binnedAtMs !== null);
  const shown = bin ? binned : cards.filter((one) => one.binnedAtMs === null);
  const card = shown.find((one) => one.slot === chosen) ?? shown[0];
  const bytes = cards.reduce((sum, one) => sum + one.bytes, 0);

  return (
    <dialog
      ref={ref}
      className="shelf"
      aria-labelledby="shelf-title"
      onClose={() => look.setState({ shelfShown: false })}
    >
      <header className="part-head">
        <h2 id="shelf-title">Plans in this browser</h2>
        <div className="pair" role="group" aria-label="Shown">
          <button type="button" aria-pressed={!bin} onClick={() => showBin(false)}>
            Plans
          </button>
          <button type="button" aria-pressed={bin} onClick={() => showBin(true)}>
            Bin ({binned.length})
          </button>
        </div>
        <span className="note">
          {found !== null && "cards" in found && `${counted(cards.length, "plan")}, ${sizeWords(bytes)}`}
        </span>
        <button
          type="button"
          onClick={() => {
            desk.newPlan();
            close();
          }}
        >
          New plan
        </button>
        <button
          type="button"
          onClick={() => {
            close();
            chooseFile(desk, look);
          }}
        >
          Open a file…
        </button>
        <label className="button">
          Merge a file…
          <input
            type="file"
            className="unseen"
            accept=".json,application/json"
            onChange={(event) => {
              merge(event.target.files?.[0] ?? null);
              event.target.value = "";
            }}
          />
        </label>
        <button type="button" className="quiet" onClick={close}>
          Close
        </button>
      </header>
      {found !== null && "problem" in found && (
        <p className="state breach" role="alert">
          This browser&apos;s store cannot be used: {found.problem}. Save the open plan to a file.
        </p>
      )}
      {merging && (
        <Merging
          key={merging.name}
          file={merging}
          done={(words) => {
            merge(null);
            if (words === null) return;
            look.setState({ spoken: words });
            close();
          }}
        />
      )}
      <div className="shelf-parts" hidden={merging !== null}>
        <ul className="shelf-cards" aria-label={bin ? "Plans in the bin" : "Plans"}>
          {shown.map((one) => (
            <PlanCard
              key={one.slot}
              card={one}
              open={one.slot === open}
              chosen={one.slot === card?.slot}
              onChoose={() => choose(one.slot)}
              act={act}
              close={close}
            />
          ))}
          {found !== null && shown.length === 0 && (
            <li className="empty">{bin ? "The bin is empty." : "No plan is kept yet."}</li>
          )}
        </ul>
        {card && !bin && (
          <section className="shelf-side" aria-label={`States of ${card.title}`}>
            <States
              key={`${card.slot} ${card.savedAtMs}`}
              card={card}
              open={card.slot === open}
              act={act}
              close={close}
            />
            <Compare key={card.slot} card={card} others={cards} />
          </section>
        )}
      </div>
      <p className="shelf-said note" role="status">
        {said}
      </p>
    </dialog>
  );
}

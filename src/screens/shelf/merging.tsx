import { useEffect, useMemo, useState } from "react";
import { parseText, type Plan } from "../../plan/index.ts";
import { type KeptState, type MergeOffer, wordsOf } from "../../session/index.ts";
import { clashWords, counted, differenceWords, renumberedWords } from "../../words/index.ts";
import { useAround, useDesk } from "../context.ts";
import { DifferenceLines } from "./differencelines.tsx";
import { momentWords, stateWords } from "./shelfwords.ts";

/** A colleague's file that is to be put together with the open plan, and who changed what. */
export function Merging(props: { readonly file: File; readonly done: (words: string | null) => void }) {
  const { file, done } = props;
  const { desk } = useAround();
  const slot = useDesk((state) => state.slot);
  const [theirs, setTheirs] = useState<Plan | null>(null);
  const [states, setStates] = useState<readonly KeptState[]>([]);
  const [offer, setOffer] = useState<MergeOffer | null>(null);
  const [problem, setProblem] = useState<string | null>(null);

  useEffect(() => {
    const look = async (): Promise<void> => {
      const read = parseText(await file.text());
      if (!read.ok) {
        const [first] = read.error;
        return setProblem(`${file.name} is no plan: ${first?.path ?? ""} ${first?.message ?? ""}`);
      }
      setTheirs(read.value);
      setStates(await desk.statesOf(slot));
      const made = await desk.offerMerge(read.value);
      setOffer(made);
      if (!made)
        setProblem("No state is kept from which both plans come. Open the file as a plan of its own.");
    };
    look().catch((error: unknown) => setProblem(wordsOf(error)));
  }, [desk, file, slot]);

  const comeFrom = (key: number): void => {
    if (theirs) desk.offerMerge(theirs, key).then(setOffer, (error: unknown) => setProblem(wordsOf(error)));
  };
  return (
    <section className="shelf-merging" aria-label="Merge a file">
      <div className="shelf-sides">
        <h3>Merge {theirs?.title ?? file.name}</h3>
        {offer && (
          <label>
            Both come from
            <select value={offer.from.key} onChange={(event) => comeFrom(Number(event.target.value))}>
              {states.map((one) => (
                <option key={one.key} value={one.key}>
                  {stateWords(one)}, {momentWords(one.atMs)}
                </option>
              ))}
            </select>
          </label>
        )}
        <button type="button" onClick={() => done(null)}>
          Leave the plan as it is
        </button>
      </div>
      {problem !== null && (
        <p className="state breach" role="alert">
          {problem}
        </p>
      )}
      {offer && <Offered key={offer.from.key} offer={offer} done={done} />}
    </section>
  );
}

function Offered(props: { readonly offer: MergeOffer; readonly done: (words: string) => void }) {
  const { offer, done } = props;
  const { base, mine, theirs, merged } = offer;
  const { desk } = useAround();
  const author = useDesk((state) => state.author);
  // Whoever had the file last has saved it; a file of no name says nothing of that.
  const sender = theirs.hands.at(-1)?.name;
  const revision = theirs.revision.name;
  const [taken, take] = useState<ReadonlySet<number>>(new Set());
  const [fault, setFault] = useState<string | null>(null);
  const [here, there] = useMemo(
    () => [differenceWords(base, mine), differenceWords(base, theirs)],
    [base, mine, theirs],
  );
  const choose = (k: number, theirOne: boolean): void => {
    const next = new Set(taken);
    if (theirOne) next.add(k);
    else next.delete(k);
    take(next);
  };
  const merge = async (): Promise<void> => {
    try {
      const made = await desk.merge(offer, taken);
      if (made.ok) {
        const { plan } = desk.state.getState();
        const numbers = made.value.map((one) => ` ${renumberedWords(plan, one)}`);
        return done(`${theirs.title} is merged, as one step.${numbers.join("")}`);
      }
      const [first] = made.error;
      setFault(`Not merged: ${first?.path ?? ""} ${first?.message ?? ""}.`);
    } catch (error) {
      setFault(`Not merged: ${wordsOf(error)}.`);
    }
  };
  return (
    <>
      {merged.clashes.length > 0 && (
        <section aria-label="Conflicts">
          <h3>{counted(merged.clashes.length, "place")} that both changed</h3>
          {merged.clashes.map((clash, k) => {
            const words = clashWords(offer, clash);
            return (
              <fieldset key={clash.path.join(" ")} className="shelf-clash">
                <legend>{words.about}</legend>
                <label>
                  <input
                    type="radio"
                    name={`clash-${k}`}
                    checked={!taken.has(k)}
                    onChange={() => choose(k, false)}
                  />
                  <span>
                    <b>Keep mine.</b> {words.mine}
                  </span>
                </label>
                <label>
                  <input
                    type="radio"
                    name={`clash-${k}`}
                    checked={taken.has(k)}
                    onChange={() => choose(k, true)}
                  />
                  <span>
                    <b>Take {sender === undefined ? "theirs" : `${sender}’s`}.</b> {words.theirs}
                  </span>
                </label>
              </fieldset>
            );
          })}
        </section>
      )}
      {merged.renumbered.length > 0 && (
        <section aria-label="Numbers given twice">
          <h3>{counted(merged.renumbered.length, "number")} that both gave</h3>
          <ul>
            {merged.renumbered.map((one) => (
              <li key={one.task}>{renumberedWords(merged.plan, one)}</li>
            ))}
          </ul>
        </section>
      )}
      <div className="merge-hands">
        <section>
          <h3>Changed here{author !== "" && `, in the browser of ${author}`}</h3>
          <DifferenceLines lines={here} label="Changed here" />
        </section>
        <section>
          <h3>
            Changed in the file{sender !== undefined && `, last saved by ${sender}`}
            {revision !== undefined && ` (${revision})`}
          </h3>
          <DifferenceLines lines={there} label="Changed in the file" />
        </section>
      </div>
      {fault !== null && (
        <p className="state breach" role="alert">
          {fault}
        </p>
      )}
      <div>
        <button type="button" className="primary" onClick={() => void merge()}>
          Merge
        </button>
      </div>
    </>
  );
}

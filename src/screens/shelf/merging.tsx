import { type ReactNode, useEffect, useMemo, useState } from "react";
import { parseText, type Plan } from "../../plan/index.ts";
import { type KeptState, type MergeOffer, wordsOf } from "../../session/index.ts";
import { clashWords, counted, differenceWords, renumberedWords } from "../../words/index.ts";
import { useApp, useSession } from "../context.ts";
import { DifferenceLines } from "./differencelines.tsx";
import { momentWords } from "../parts/moment.ts";
import { stateWords } from "./shelfwords.ts";

/** A colleague's file that is to be put together with the open plan, and who changed what. */
export function Merging(props: { readonly file: File; readonly done: (words: string | null) => void }) {
  const { file, done } = props;
  const { session } = useApp();
  const slot = useSession((state) => state.slot);
  const [theirs, setTheirs] = useState<Plan | null>(null);
  const [states, setStates] = useState<readonly KeptState[]>([]);
  const [offer, setOffer] = useState<MergeOffer | null>(null);
  const [problem, setProblem] = useState<string | null>(null);

  useEffect(() => {
    const view = async (): Promise<void> => {
      const read = parseText(await file.text());
      if (!read.ok) {
        const [first] = read.error;
        return setProblem(`${file.name} is no plan: ${first?.path ?? ""} ${first?.message ?? ""}`);
      }
      setTheirs(read.value);
      setStates(await session.statesOf(slot));
      const made = await session.offerMerge(read.value);
      setOffer(made);
      if (!made)
        setProblem("No state is kept from which both plans come. Open the file as a plan of its own.");
    };
    view().catch((error: unknown) => setProblem(wordsOf(error)));
  }, [session, file, slot]);

  const comeFrom = (key: number): void => {
    if (theirs)
      session.offerMerge(theirs, key).then(setOffer, (error: unknown) => setProblem(wordsOf(error)));
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

/** What a merge comes to: what both changed, what each changed, and the merge itself. */
function Offered(props: { readonly offer: MergeOffer; readonly done: (words: string) => void }) {
  const { offer, done } = props;
  const { session } = useApp();
  const [taken, take] = useState<ReadonlySet<number>>(new Set());
  const [fault, setFault] = useState<string | null>(null);
  const merge = async (): Promise<void> => {
    try {
      const made = await session.merge(offer, taken);
      if (made.ok) {
        const { plan } = session.state.getState();
        const numbers = made.value.map((one) => ` ${renumberedWords(plan, one)}`);
        return done(`${offer.theirs.title} is merged, as one step.${numbers.join("")}`);
      }
      const [first] = made.error;
      setFault(`Not merged: ${first?.path ?? ""} ${first?.message ?? ""}.`);
    } catch (error) {
      setFault(`Not merged: ${wordsOf(error)}.`);
    }
  };
  return (
    <>
      <Conflicts offer={offer} taken={taken} onTaken={take} />
      <Renumbered offer={offer} />
      <Hands offer={offer} />
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

/** Who had the file last has saved it; undefined where it says nothing of that. */
function senderOf({ theirs }: MergeOffer): string | undefined {
  return theirs.hands.at(-1)?.name;
}

/** What both changed, each to be decided; `taken` are those in which theirs is taken. */
function Conflicts(props: {
  readonly offer: MergeOffer;
  readonly taken: ReadonlySet<number>;
  readonly onTaken: (taken: ReadonlySet<number>) => void;
}) {
  const { offer, taken, onTaken } = props;
  const { clashes } = offer.merged;
  const sender = senderOf(offer);
  if (clashes.length === 0) return null;
  const choose = (k: number, theirOne: boolean): void => {
    const next = new Set(taken);
    if (theirOne) next.add(k);
    else next.delete(k);
    onTaken(next);
  };
  return (
    <section aria-label="Conflicts">
      <h3>{counted(clashes.length, "place")} that both changed</h3>
      {clashes.map((clash, k) => {
        const words = clashWords(offer, clash);
        const name = `clash-${k}`;
        return (
          <fieldset key={clash.path.join(" ")} className="shelf-clash">
            <legend>{words.about}</legend>
            <Side name={name} chosen={!taken.has(k)} onChoose={() => choose(k, false)}>
              <b>Keep mine.</b> {words.mine}
            </Side>
            <Side name={name} chosen={taken.has(k)} onChoose={() => choose(k, true)}>
              <b>Take {sender === undefined ? "theirs" : `${sender}’s`}.</b> {words.theirs}
            </Side>
          </fieldset>
        );
      })}
    </section>
  );
}

/** One of two sides of a conflict. */
function Side(props: {
  readonly name: string;
  readonly chosen: boolean;
  readonly onChoose: () => void;
  readonly children: ReactNode;
}) {
  return (
    <label>
      <input type="radio" name={props.name} checked={props.chosen} onChange={props.onChoose} />
      <span>{props.children}</span>
    </label>
  );
}

/** Tasks of theirs that get another number, since both gave theirs. */
function Renumbered({ offer }: { readonly offer: MergeOffer }) {
  const { plan, renumbered } = offer.merged;
  if (renumbered.length === 0) return null;
  return (
    <section aria-label="Numbers given twice">
      <h3>{counted(renumbered.length, "number")} that both gave</h3>
      <ul>
        {renumbered.map((one) => (
          <li key={one.task}>{renumberedWords(plan, one)}</li>
        ))}
      </ul>
    </section>
  );
}

/** What each of the two hands changed. */
function Hands({ offer }: { readonly offer: MergeOffer }) {
  const { base, mine, theirs } = offer;
  const author = useSession((state) => state.author);
  const sender = senderOf(offer);
  const revision = theirs.revision.name;
  const [here, there] = useMemo(
    () => [differenceWords(base, mine), differenceWords(base, theirs)],
    [base, mine, theirs],
  );
  return (
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
  );
}

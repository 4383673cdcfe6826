import { useEffect, useState } from "react";
import { type Card, type KeptState, type Which, wordsOf } from "../../session/index.ts";
import { type DifferenceLine, differenceWords } from "../../words/index.ts";
import { useApp } from "../context.ts";
import { DifferenceLines } from "./differencelines.tsx";
import { momentWords } from "../parts/moment.ts";
import { stateWords } from "./shelfwords.ts";

/** One of two that are held against each other. */
interface Side {
  readonly key: string;
  readonly words: string;
  readonly which: Which;
}

/** What any two differ in, in words: states of a plan, the plan as it is, other plans. */
export function Compare({ card, others }: { readonly card: Card; readonly others: readonly Card[] }) {
  const { session } = useApp();
  const [states, setStates] = useState<readonly KeptState[]>([]);
  const [from, setFrom] = useState<string | null>(null);
  const [to, setTo] = useState(card.slot);
  const [lines, setLines] = useState<readonly DifferenceLine[] | string | null>(null);
  useEffect(() => {
    session.statesOf(card.slot).then(setStates, () => undefined);
  }, [session, card]);

  const sides: readonly Side[] = [
    { key: card.slot, words: `${card.title} as it is`, which: { slot: card.slot } },
    ...states.map((one) => ({
      key: `state ${one.key}`,
      words: `${stateWords(one)}, ${momentWords(one.atMs)}${one.author === "" ? "" : `, by ${one.author}`}`,
      which: { state: one.key },
    })),
    ...others
      .filter((one) => one.slot !== card.slot && one.binnedAtMs === null)
      .map((one) => ({ key: one.slot, words: one.title, which: { slot: one.slot } })),
  ];
  const first = from ?? sides[1]?.key ?? card.slot;

  const compare = async (): Promise<void> => {
    const [a, b] = [first, to].map((key) => sides.find((one) => one.key === key)?.which);
    try {
      const [before, after] = await Promise.all([a ? session.planOf(a) : null, b ? session.planOf(b) : null]);
      setLines(before && after ? differenceWords(before, after) : "One of them cannot be read.");
    } catch (error) {
      setLines(wordsOf(error));
    }
  };
  // What was found of other sides is said no more.
  const chosen =
    (set: (key: string) => void) =>
    (key: string): void => {
      set(key);
      setLines(null);
    };
  return (
    <section className="shelf-compare" aria-label="Compare two">
      <h3>What is different</h3>
      <div className="shelf-sides">
        <SideChoice label="From" sides={sides} value={first} onChoose={chosen(setFrom)} />
        <SideChoice label="To" sides={sides} value={to} onChoose={chosen(setTo)} />
        <button type="button" onClick={() => void compare()}>
          Compare
        </button>
      </div>
      {typeof lines === "string" && <p className="state breach">{lines}</p>}
      {lines !== null && typeof lines !== "string" && <DifferenceLines lines={lines} />}
    </section>
  );
}

function SideChoice(props: {
  readonly label: string;
  readonly sides: readonly Side[];
  readonly value: string;
  readonly onChoose: (key: string) => void;
}) {
  const { label, sides, value, onChoose } = props;
  return (
    <label>
      {label}
      <select value={value} onChange={(event) => onChoose(event.target.value)}>
        {sides.map((one) => (
          <option key={one.key} value={one.key}>
            {one.words}
          </option>
        ))}
      </select>
    </label>
  );
}

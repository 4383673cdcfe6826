import { useMemo, useState } from "react";
import {
  layoutAt,
  type ListKind,
  readList,
  type Reading,
  type RememberedReadings,
  type Sheet,
  takeList,
} from "../../session/lists.ts";
import { useApp, useSession } from "../context.ts";
import { Columns } from "./columns.tsx";
import { Preview } from "./preview.tsx";
import type { Source } from "./sources.ts";
import { Words } from "./words.tsx";

const KINDS: readonly { readonly kind: ListKind; readonly words: string }[] = [
  { kind: "tasks", words: "tasks" },
  { kind: "places", words: "places" },
  { kind: "links", words: "links between tasks" },
];

/** One list: what its columns and words mean on the left, what it would make of the plan on the right. */
export function ListView(props: {
  readonly source: Source;
  /** What was taken of it; null before. */
  readonly taken: string | null;
  readonly remembered: RememberedReadings;
  readonly onTaken: (words: string) => void;
}) {
  const { sheet, reading: first } = props.source;
  const { session } = useApp();
  const plan = useSession((state) => state.plan);
  const [reading, setReading] = useState<Reading>(
    () => first ?? { ...layoutAt(sheet, 0, "tasks"), mark: ".", clocks: "h:mm", answers: new Map() },
  );
  const read = useMemo(() => readList(plan, sheet, reading), [plan, sheet, reading]);
  const [trouble, setTrouble] = useState<string | null>(null);

  const take = (): void => {
    const put = takeList(session, sheet.name, read);
    props.remembered.keep(sheet, reading);
    if (put.ok) props.onTaken(put.value);
    else setTrouble(put.error[0]?.message ?? "the plan cannot take it");
  };
  const heads = (headRow: number, kind: ListKind): void =>
    setReading((now) => ({ ...now, ...layoutAt(sheet, headRow, kind) }));

  return (
    <div className="import-list">
      <section aria-label="How it is read" className="import-how">
        {first === null && (
          <p className="import-trouble">
            <b>No heads found.</b> Say in which row they stand, and what each column is.
          </p>
        )}
        <ReadingChoices sheet={sheet} reading={reading} onHeads={heads} onReading={setReading} />
        <Words questions={read.questions} reading={reading} onReading={setReading} />
        <Columns sheet={sheet} reading={reading} onReading={setReading} />
      </section>
      <Preview read={read} clocks={reading.clocks} taken={props.taken} trouble={trouble} onTake={take} />
    </div>
  );
}

/** What the list is of, where its heads stand, and how its numbers are written. */
function ReadingChoices(props: {
  readonly sheet: Sheet;
  readonly reading: Reading;
  readonly onHeads: (headRow: number, kind: ListKind) => void;
  readonly onReading: (reading: Reading) => void;
}) {
  const { sheet, reading, onHeads, onReading } = props;
  return (
    <div className="import-choices">
      <label>
        A list of{" "}
        <select
          value={reading.kind}
          onChange={(event) => {
            const chosen = KINDS.find(({ kind }) => kind === event.currentTarget.value);
            if (chosen) onHeads(reading.headRow, chosen.kind);
          }}
        >
          {KINDS.map(({ kind, words }) => (
            <option key={kind} value={kind}>
              {words}
            </option>
          ))}
        </select>
      </label>
      <label>
        Heads in row{" "}
        <input
          type="number"
          min={1}
          max={sheet.rows.length}
          value={reading.headRow + 1}
          onChange={(event) => {
            const row = event.currentTarget.valueAsNumber;
            if (row >= 1 && row <= sheet.rows.length) onHeads(Math.floor(row) - 1, reading.kind);
          }}
        />
      </label>
      <NumberChoices reading={reading} onReading={onReading} />
    </div>
  );
}

/** What a decimal point and a length of two numbers mean in the list. */
function NumberChoices(props: { readonly reading: Reading; readonly onReading: (reading: Reading) => void }) {
  const { reading, onReading } = props;
  return (
    <>
      <label>
        Decimals{" "}
        <select
          value={reading.mark}
          onChange={(event) => onReading({ ...reading, mark: event.currentTarget.value === "," ? "," : "." })}
        >
          <option value=".">1.5 with a point</option>
          <option value=",">1,5 with a comma</option>
        </select>
      </label>
      <label>
        25:00 is{" "}
        <select
          value={reading.clocks}
          onChange={(event) =>
            onReading({ ...reading, clocks: event.currentTarget.value === "m:ss" ? "m:ss" : "h:mm" })
          }
        >
          <option value="h:mm">25 hours (h:mm)</option>
          <option value="m:ss">25 minutes (m:ss)</option>
        </select>
      </label>
    </>
  );
}

import type { Typed } from "./heightanswers.ts";

/** What is asked about a file of heights. */

const UNITS = [
  ["1", "metres"],
  ["1000", "kilometres"],
  ["0.3048", "feet, international (0.3048 m)"],
  [String(1200 / 3937), "feet, US survey (0.3048006 m)"],
] as const;

interface Fields {
  readonly typed: Typed;
  readonly onType: (part: Partial<Typed>) => void;
}

/** Where a file lies that does not say so itself. */
export function WhereItLies(fields: Fields) {
  return (
    <fieldset>
      <legend>Where it lies</legend>
      <TypedField {...fields} name="projection" words="Projection in PROJ or WKT 1 words, where known" />
      <TypedField
        {...fields}
        name="up"
        words="Else: bearing of its upward side, degrees from true north"
        note="0 where its first row lies to true north. A polar map seldom does."
      />
      <TypedField
        {...fields}
        name="x"
        words="Lander in its coordinates, x"
        note="Its middle when left empty."
      />
      <TypedField {...fields} name="y" words="Lander in its coordinates, y" />
    </fieldset>
  );
}

/** The unit of a file's heights. */
export function UnitChoice({ typed, onType }: Fields) {
  return (
    <label>
      <span>Unit of the heights</span>
      <select value={typed.unit} onChange={(event) => onType({ unit: event.target.value })}>
        <option value="">not said: choose</option>
        {UNITS.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

/** How much of a file is wanted. */
export function HowMuch(fields: Fields) {
  return (
    <fieldset>
      <legend>How much of it</legend>
      <TypedField
        {...fields}
        name="reach"
        words="Only within so many metres of the lander"
        note="All of it when left empty."
      />
      <TypedField
        {...fields}
        name="spacing"
        words="Points so many metres apart"
        note="As in the file when left empty. Wider apart, slopes shorter than that are not seen."
      />
      <TypedField
        {...fields}
        name="unknown"
        words="A value that stands for unknown"
        note="Besides those that the file names."
      />
    </fieldset>
  );
}

function TypedField(
  props: Fields & { readonly name: keyof Typed; readonly words: string; readonly note?: string },
) {
  const { typed, onType, name, words, note } = props;
  return (
    <label>
      <span>{words}</span>
      <input value={typed[name]} onChange={(event) => onType({ [name]: event.target.value })} />
      {note && <small className="note">{note}</small>}
    </label>
  );
}

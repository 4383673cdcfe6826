import { type KeyboardEvent, type RefObject, useRef, useState } from "react";
import type { VariantDay } from "../../session/index.ts";
import { counted, grouped, percent } from "../../words/index.ts";
import { useApp, useSession } from "../context.ts";
import { Prose } from "../parts/prose.tsx";
import { MOST_BESIDE } from "./days.ts";

/** Every variant with what it comes to; which are compared, and what can be done with each. */
export function VariantList({ chosen }: { readonly chosen: readonly string[] }) {
  const { session } = useApp();
  useSession((state) => state.plan);
  const days = session.state.getState().plan.variants.flatMap(({ id }) => session.variantDay(id) ?? []);
  return (
    <table className="variant-list">
      <caption className="unseen">Variants</caption>
      <thead>
        <tr>
          <th scope="col">Compare</th>
          <th scope="col">Variant</th>
          <th scope="col">Comes to</th>
          <th scope="col">Gives up</th>
          <th scope="col">
            <span className="unseen">Commands</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {days.map((day) => (
          <Row key={day.id} day={day} chosen={chosen} />
        ))}
      </tbody>
    </table>
  );
}

function Row({ day, chosen }: { readonly day: VariantDay; readonly chosen: readonly string[] }) {
  const { view } = useApp();
  const [renaming, setRenaming] = useState(false);
  const rename = useRef<HTMLButtonElement>(null);
  const compare = (wanted: boolean): void => {
    const others = chosen.filter((id) => id !== day.id);
    view.setState({ compared: wanted ? [...others, day.id].slice(-MOST_BESIDE) : others });
  };
  return (
    <tr>
      <td>
        <input
          type="checkbox"
          aria-label={`Compare ${day.name}`}
          checked={chosen.includes(day.id)}
          onChange={(event) => compare(event.target.checked)}
        />
      </td>
      <td>
        {renaming ? (
          <Name
            day={day}
            done={(byKey) => {
              setRenaming(false);
              if (byKey) rename.current?.focus();
            }}
          />
        ) : (
          <>
            <b>{day.name}</b> {day.isOpenDay && <span className="state fine">as the day stands</span>}
          </>
        )}
      </td>
      <td>
        <ComesTo verdict={day.verdict} />
      </td>
      <td>
        <GivesUp day={day} />
      </td>
      <td>
        <RowTools day={day} rename={rename} onRename={() => setRenaming(true)} />
      </td>
    </tr>
  );
}

/** `1 breach worth 940, must-do 12 of 14, worst margin 8 %`. */
function ComesTo({ verdict: { score, mustPlaced, mustTotal } }: Pick<VariantDay, "verdict">) {
  return (
    <>
      {score.breaches > 0 && (
        <span className="state breach">{counted(score.breaches, "breach", "breaches")}</span>
      )}{" "}
      <Prose
        words={`worth ${grouped(score.worth)}, must-do ${mustPlaced} of ${mustTotal}, worst margin ${percent(score.worstMargin / 10_000, "down")}`}
      />
    </>
  );
}

/** What of the plan the variant gives up, whom that asks, and whether it still can. */
function GivesUp({ day: { givesUp, clashes } }: { readonly day: VariantDay }) {
  if (givesUp === null) return <span className="note">nothing of the plan</span>;
  return (
    <>
      {givesUp.sentence}
      {givesUp.owner !== null && <b> Asks {givesUp.owner}.</b>}
      {clashes.length > 0 && (
        <span className="state breach">The plan has changed there: it no longer applies.</span>
      )}
    </>
  );
}

/** What can be done with a variant. */
function RowTools(props: {
  readonly day: VariantDay;
  readonly rename: RefObject<HTMLButtonElement | null>;
  onRename(): void;
}) {
  const { day, rename, onRename } = props;
  const { session } = useApp();
  const disabled = day.isOpenDay || day.clashes.length > 0;
  return (
    <div className="row-tools">
      <button
        type="button"
        // Not disabled: the keyboard would lose its place when the variant has become the day.
        aria-disabled={disabled}
        title={
          day.isOpenDay
            ? "It is the day already."
            : disabled
              ? "It clashes with the plan as it is now."
              : undefined
        }
        aria-label={`Adopt ${day.name}`}
        onClick={() => {
          if (!disabled) session.adoptVariant(day.id);
        }}
      >
        Adopt
      </button>
      <button ref={rename} type="button" aria-label={`Rename ${day.name}`} onClick={onRename}>
        Rename
      </button>
      <button
        type="button"
        className="danger"
        aria-label={`Remove ${day.name}`}
        onClick={() => {
          session.removeVariant(day.id);
          document.querySelector<HTMLElement>(".variants h2")?.focus();
        }}
      >
        Remove
      </button>
    </div>
  );
}

/** The name in a field: Enter takes it, Escape leaves it as it was. */
function Name({ day, done }: { readonly day: VariantDay; readonly done: (byKey: boolean) => void }) {
  const { session } = useApp();
  const [name, setName] = useState(day.name);
  const [faulty, setFaulty] = useState(false);
  const over = useRef(false);
  const take = (byKey: boolean): void => {
    // The field also loses the keyboard because it is done.
    if (over.current) return;
    const same = name.trim() === day.name;
    const renamed = same || session.renameVariant(day.id, name.trim()).ok;
    setFaulty(!renamed);
    over.current = renamed;
    if (renamed) done(byKey);
  };
  const keys = (event: KeyboardEvent): void => {
    if (event.key === "Enter") take(true);
    else if (event.key === "Escape") {
      over.current = true;
      done(true);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <input
      aria-label={`New name of ${day.name}`}
      aria-invalid={faulty}
      autoFocus
      maxLength={120}
      value={name}
      onChange={(event) => setName(event.target.value)}
      onKeyDown={keys}
      onBlur={() => take(false)}
    />
  );
}

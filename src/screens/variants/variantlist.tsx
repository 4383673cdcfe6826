import { type KeyboardEvent, useRef, useState } from "react";
import type { VariantDay } from "../../session/index.ts";
import { counted, grouped, percent } from "../../words/index.ts";
import { useAround, useDesk } from "../context.ts";
import { MOST_BESIDE } from "./days.ts";

/** Every variant with what it comes to; which are compared, and what can be done with each. */
export function VariantList({ chosen }: { readonly chosen: readonly string[] }) {
  const { desk } = useAround();
  useDesk((state) => state.plan);
  const days = desk.state.getState().plan.variants.flatMap(({ id }) => desk.variantDay(id) ?? []);
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
  const { desk, look } = useAround();
  const [renaming, setRenaming] = useState(false);
  const on = chosen.includes(day.id);
  const { score } = day.verdict;
  const disabledReason = day.stands || day.clashes.length > 0;
  const rename = useRef<HTMLButtonElement>(null);
  const compare = (wanted: boolean): void => {
    const others = chosen.filter((id) => id !== day.id);
    look.setState({ compared: wanted ? [...others, day.id].slice(-MOST_BESIDE) : others });
  };
  return (
    <tr>
      <td>
        <input
          type="checkbox"
          aria-label={`Compare ${day.name}`}
          checked={on}
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
            <b>{day.name}</b> {day.stands && <span className="state fine">as the day stands</span>}
          </>
        )}
      </td>
      <td>
        {score.breaches > 0 && (
          <span className="state breach">{counted(score.breaches, "breach", "breaches")}</span>
        )}{" "}
        worth {grouped(score.worth)}, must-do {day.verdict.mustPlaced} of {day.verdict.mustTotal}, worst
        margin {percent(score.worstMargin / 10_000, "down")}
      </td>
      <td>
        {day.givesUp === null ? (
          <span className="note">nothing of the plan</span>
        ) : (
          <>
            {day.givesUp.sentence}
            {day.givesUp.owner !== null && <b> Asks {day.givesUp.owner}.</b>}
            {day.clashes.length > 0 && (
              <span className="state breach">The plan has changed there: it no longer applies.</span>
            )}
          </>
        )}
      </td>
      <td>
        <div className="row-tools">
          <button
            type="button"
            // Not disabled: the keyboard would lose its place when the variant has become the day.
            aria-disabled={disabledReason}
            aria-label={`Adopt ${day.name}`}
            onClick={() => {
              if (!disabledReason) desk.adoptVariant(day.id);
            }}
          >
            Adopt
          </button>
          <button
            ref={rename}
            type="button"
            aria-label={`Rename ${day.name}`}
            onClick={() => setRenaming(true)}
          >
            Rename
          </button>
          <button
            type="button"
            className="danger"
            aria-label={`Remove ${day.name}`}
            onClick={() => {
              desk.removeVariant(day.id);
              document.querySelector<HTMLElement>(".variants h2")?.focus();
            }}
          >
            Remove
          </button>
        </div>
      </td>
    </tr>
  );
}

/** The name in a field: Enter takes it, Escape leaves it as it was. */
function Name({ day, done }: { readonly day: VariantDay; readonly done: (byKey: boolean) => void }) {
  const { desk } = useAround();
  const [name, setName] = useState(day.name);
  const [faulty, setFaulty] = useState(false);
  const over = useRef(false);
  const take = (byKey: boolean): void => {
    // The field also loses the keyboard because it is done.
    if (over.current) return;
    const same = name.trim() === day.name;
    const renamed = same || desk.renameVariant(day.id, name.trim()).ok;
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

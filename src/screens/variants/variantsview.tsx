import "./variants.css";
import { type FormEvent, useMemo, useRef, useState } from "react";
import { useApp, useSession, useView } from "../context.ts";
import { Comparison } from "./comparison.tsx";
import { chosenOf, daysToCompare } from "./days.ts";
import { DifferenceList } from "./differencelist.tsx";
import { VariantList } from "./variantlist.tsx";
import { Weave } from "./weave.tsx";

/** Named alternatives to the day: kept, listed, held against the day as it stands, and adopted. */
export function VariantsView() {
  const { session } = useApp();
  const plan = useSession((state) => state.plan);
  const verdict = useSession((state) => state.verdict);
  const compared = useView((state) => state.compared);
  const days = useMemo(
    () => daysToCompare(session, compared),
    // What is compared is read from the session; these are what it is made of.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [session, compared, plan, verdict],
  );
  const [present, ...beside] = days;

  return (
    <div className="sheet variants">
      <header className="sheet-head">
        <h2 tabIndex={-1}>Variants</h2>
        <Keep />
      </header>
      {plan.variants.length === 0 ? (
        <p className="empty">
          No variant is kept yet. Keep the day as it stands under a name, or ask “Why not?” on the bench and
          try what could give: each becomes a variant here.
        </p>
      ) : (
        <VariantList chosen={chosenOf(plan, compared)} />
      )}
      {present && beside.length > 0 && (
        <>
          <Comparison days={days} />
          {beside.map((day) => (
            <section
              key={day.id}
              className="variants-against"
              aria-label={`${day.name} against the day as it stands`}
            >
              <h3>{day.name} against the day as it stands</h3>
              <Weave from={present} to={day} />
              <DifferenceList from={present} to={day} />
            </section>
          ))}
        </>
      )}
    </div>
  );
}

/** Keeps the day as it stands under a name. */
function Keep() {
  const { session, view } = useApp();
  const [name, setName] = useState("");
  const [fault, setFault] = useState<string | null>(null);
  const field = useRef<HTMLInputElement>(null);
  const keep = (event: FormEvent): void => {
    event.preventDefault();
    const kept = session.keepVariant(name.trim());
    if (!kept.ok) {
      setFault(name.trim() === "" ? "It needs a name." : (kept.error[0]?.message ?? "It cannot be kept."));
      field.current?.focus();
      return;
    }
    setFault(null);
    setName("");
    view.setState((now) => ({ compared: [...now.compared, kept.value].slice(-2) }));
  };
  return (
    <form className="keep-day" onSubmit={keep}>
      <input
        ref={field}
        aria-label="Name of the variant"
        aria-invalid={fault !== null}
        aria-describedby={fault === null ? undefined : "keep-fault"}
        placeholder="Name"
        maxLength={120}
        value={name}
        onChange={(event) => setName(event.target.value)}
      />
      <button type="submit" className="primary">
        Keep the day as a variant
      </button>
      {fault !== null && (
        <span id="keep-fault" className="state breach" role="alert">
          {fault}
        </span>
      )}
    </form>
  );
}

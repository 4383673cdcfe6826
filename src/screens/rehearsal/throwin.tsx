import { type FormEvent, type ReactNode, useState } from "react";
import { instant } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { CallOut, Rehearsed } from "../../session/index.ts";
import { clock, numberedTask } from "../../words/index.ts";
import { useRehearsal, useRehearsed } from "./context.ts";

type Choice = readonly (readonly [id: string, name: string])[];

/** One thing that may go wrong: what it is about, what amount it takes, and the call it makes. */
interface Slip {
  readonly name: string;
  readonly about: (plan: Plan, day: Rehearsed) => Choice;
  readonly amount: {
    readonly words: string;
    readonly usual: number;
    readonly least?: number;
    readonly most: number;
  } | null;
  /** The most of it where that is up to what it happens to. */
  readonly mostOf?: (about: string, plan: Plan, day: Rehearsed) => number;
  call(about: string, amount: number, nowS: number): CallOut;
}

/** How many of an equipment are still of use. */
const leftOf = (id: string, { equipment }: Plan, { standing }: Rehearsed): number =>
  (equipment.find((one) => one.id === id)?.count ?? 0) - (standing.facts.broken.get(id) ?? 0);

const SLIPS: readonly Slip[] = [
  {
    name: "Everybody holds",
    about: () => [["all", "everybody"]],
    amount: { words: "for so many minutes", usual: 10, most: 600 },
    call: (_, amount, nowS) => ({ kind: "hold", untilS: instant(nowS + amount * 60) }),
  },
  {
    name: "A task takes longer",
    about: (plan, { standing }) =>
      standing.placements.flatMap(({ task, state }) =>
        state === "done" ? [] : [[task, numberedTask(plan, task)] as const],
      ),
    amount: { words: "by so many minutes", usual: 10, most: 600 },
    call: (task, amount) => ({ kind: "longer", task, byS: amount * 60 }),
  },
  {
    name: "A task's result is lost",
    about: (plan, { standing }) =>
      standing.placements.flatMap(({ task, state }) =>
        state === "under way" ? [[task, numberedTask(plan, task)] as const] : [],
      ),
    amount: null,
    call: (task) => ({ kind: "spoilt", task }),
  },
  {
    name: "A crew member is slower",
    about: ({ crew }) => crew.map(({ id, name }) => [id, name] as const),
    amount: { words: "percent of the planned time", usual: 130, least: 10, most: 500 },
    call: (crew, percent) => ({ kind: "slower", crew, percent }),
  },
  {
    name: "An EVA is to be back sooner",
    about: ({ evas }, { standing }) =>
      evas.filter(({ id }) => !standing.facts.inS.has(id)).map(({ id, name }) => [id, name] as const),
    amount: { words: "in so many minutes from now", usual: 60, most: 1440 },
    call: (eva, amount, nowS) => ({ kind: "back-by", eva, byS: instant(nowS + amount * 60) }),
  },
  {
    name: "Equipment is out of use",
    about: (plan, day) =>
      plan.equipment.flatMap(({ id, name }) => (leftOf(id, plan, day) > 0 ? [[id, name] as const] : [])),
    amount: { words: "so many of it", usual: 1, most: 10_000 },
    mostOf: leftOf,
    call: (equipment, amount) => ({ kind: "broken", equipment, count: amount }),
  },
  {
    name: "A relay pass is lost",
    about: ({ stay }, { standing }) =>
      stay.relayPasses
        .filter(({ id, endS }) => endS > standing.nowS && !standing.facts.lostPasses.has(id))
        .map(({ id, name, startS }) => [id, `${name}, ${clock(startS)}`] as const),
    amount: null,
    call: (pass) => ({ kind: "no-relay", pass }),
  },
  {
    name: "A place is closed",
    about: ({ site }) =>
      site.places.filter(({ kind }) => kind !== "lander").map(({ id, name }) => [id, name] as const),
    amount: null,
    call: (place) => ({ kind: "closed", place }),
  },
];

/** Slips and faults to throw into the day, and a line for the log. */
export function ThrowIn() {
  return (
    <section className="rehearsal-throw" aria-label="Throw in">
      <h3>Throw in</h3>
      <SlipForm />
      <LogForm />
    </section>
  );
}

function SlipForm() {
  const work = useRehearsal();
  const day = useRehearsed();
  const [which, choose] = useState(0);
  const [about, setAbout] = useState("");
  const slip = SLIPS[which]!;
  const choices = slip.about(day.plan, day);
  const chosen = choices.some(([id]) => id === about) ? about : (choices[0]?.[0] ?? "");
  const throwIn = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault();
    const field = event.currentTarget.elements.namedItem("amount") as HTMLInputElement | null;
    const amount = field ? Math.round(field.valueAsNumber) : 1;
    if (chosen === "" || !Number.isFinite(amount) || amount < 1) return;
    work.call(slip.call(chosen, amount, day.rehearsal.nowS));
  };
  return (
    <form onSubmit={throwIn}>
      <Labelled words="What happens">
        <select value={which} onChange={(event) => choose(Number(event.target.value))}>
          {SLIPS.map(({ name }, i) => (
            <option key={name} value={i}>
              {name}
            </option>
          ))}
        </select>
      </Labelled>
      {choices.length > 1 || choices[0]?.[0] !== "all" ? (
        <Labelled words="To what">
          <select value={chosen} onChange={(event) => setAbout(event.target.value)}>
            {choices.map(([id, name]) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </Labelled>
      ) : null}
      {slip.amount && (
        <Amount
          key={which}
          {...slip.amount}
          most={slip.mostOf?.(chosen, day.plan, day) ?? slip.amount.most}
        />
      )}
      <button
        type="submit"
        disabled={choices.length === 0}
        title={choices.length === 0 ? "There is nothing left that it could happen to." : undefined}
      >
        Throw it in
      </button>
    </form>
  );
}

/** How much of it, beginning with what is usual. */
function Amount({ words, usual, least = 1, most }: NonNullable<Slip["amount"]>) {
  return (
    <Labelled words={words}>
      <input name="amount" type="number" min={least} max={most} step={1} required defaultValue={usual} />
    </Labelled>
  );
}

function LogForm() {
  const work = useRehearsal();
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        const form = event.currentTarget;
        const words = (form.elements.namedItem("words") as HTMLInputElement).value.trim();
        if (words === "") return;
        work.call({ kind: "note", words });
        form.reset();
      }}
    >
      <Labelled words="A line for the log">
        <input name="words" maxLength={240} />
      </Labelled>
      <button type="submit">Write down</button>
    </form>
  );
}

function Labelled({ words, children }: { readonly words: string; readonly children: ReactNode }) {
  return (
    <label>
      <span className="note">{words}</span>
      {children}
    </label>
  );
}

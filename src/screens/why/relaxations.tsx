import { memo, useMemo, useState } from "react";
import type { Relaxation, WhyReport } from "../../answers/index.ts";
import { applyEdit, type Plan } from "../../plan/index.ts";
import { type WhyQuestion, shownTasks } from "../../session/index.ts";
import { counted, grouped, numberedSentence, numberedTask, percent, signed } from "../../words/index.ts";
import { useApp, useSession } from "../context.ts";
import { DayChances } from "../daychances.tsx";
import { Prose } from "../parts/prose.tsx";
import { FEW } from "./conflict.tsx";

/** What could be given up, cheapest first; each becomes a variant with one press. The open day stays as it is. */
export function Relaxations(props: {
  readonly why: WhyQuestion;
  readonly report: WhyReport;
  readonly stale: boolean;
}) {
  const { why, report, stale } = props;
  const ways = report.relaxations;
  // Where nothing was tried there is nothing to say of it.
  if (ways.length === 0 && (why.running || report.state !== "conflict" || report.tried === 0)) return null;
  const heading = report.state === "conflict" ? "What could give" : "How it fits";
  return (
    <section aria-label={heading}>
      <h3>{heading}</h3>
      {ways.length === 0 ? (
        <p>No single change that was tried makes it fit.</p>
      ) : (
        <p className="note">
          {report.state === "conflict" &&
            "Each one alone is enough: tried, with everything else free to start at other times. Of minutes, percents and pieces one less was tried too and was not enough. "}
          Cheapest first. Trying one keeps a variant; the day stays.
        </p>
      )}
      <ol className="why-ways">
        {ways.map((way) => (
          <Way
            key={way.sentence}
            way={way}
            plan={why.plan}
            before={why.worth}
            kept={why.taken.get(way.sentence) ?? null}
            stale={stale}
          />
        ))}
      </ol>
    </section>
  );
}

const Way = memo(function Way(props: {
  readonly way: Relaxation;
  readonly plan: Plan;
  /** Worth of the day asked about. */
  readonly before: number;
  readonly kept: string | null;
  readonly stale: boolean;
}) {
  const { way, plan, before, stale } = props;
  const { session, view } = useApp();
  const variant = useSession((state) => state.plan.variants.find((one) => one.id === props.kept) ?? null);
  const [fresh, setFresh] = useState(false);
  const taken = (): void => {
    const id = session.tryRelaxation(way);
    if (id === null) return;
    setFresh(true);
    const name = session.state.getState().plan.variants.find((one) => one.id === id)?.name ?? "";
    view.setState({ compared: [id], spoken: `Kept as variant ${name}.` });
  };
  return (
    <li className="why-way">
      <p className="way-sentence">
        <Prose words={numberedSentence(plan, way.sentence)} />
      </p>
      <Cost way={way} plan={plan} before={before} />
      {way.dropped.length > 1 && <Dropped tasks={way.dropped} />}
      {way.moves.length > 0 && <Moves plan={plan} sentences={way.moves} />}
      {variant ? (
        <Kept variant={variant.id} fresh={fresh} />
      ) : (
        <button
          type="button"
          onClick={taken}
          aria-label={`Try as a variant: ${numberedSentence(plan, way.sentence)}`}
          disabled={stale}
          title={stale ? "The day has changed since: ask again." : undefined}
        >
          Try as a variant
        </button>
      )}
    </li>
  );
});

/** What a way costs, what the day comes to then, and who decides. */
function Cost(props: { readonly way: Relaxation; readonly plan: Plan; readonly before: number }) {
  const { way, plan, before } = props;
  const then = useMemo(() => ({ plan: applyEdit(plan, way.edit), schedule: way.schedule }), [plan, way]);
  return (
    <dl className="way-cost">
      <div>
        <dt>Costs</dt>
        <dd className={way.cost.mustLost > 0 ? "state breach" : undefined}>{costWords(way)}</dd>
      </div>
      <div>
        <dt>Then</dt>
        <dd>
          <Prose
            words={`worth ${grouped(way.score.worth)} (${signed(way.score.worth - before)}), worst margin ${percent(way.score.worstMargin / 10_000, "down")}`}
          />
        </dd>
      </div>
      <div>
        <dt>Chances</dt>
        <dd>
          <DayChances day={then} />
        </dd>
      </div>
      <div>
        <dt>Decides</dt>
        <dd>{way.owner ?? "the planner"}</dd>
      </div>
    </dl>
  );
}

/** What can be done with a way that is kept as a variant. */
function Kept({ variant, fresh }: { readonly variant: string; readonly fresh: boolean }) {
  const { session, view } = useApp();
  const isOpenDay = useSession(() => session.variantDay(variant)?.isOpenDay ?? false);
  return (
    <div className="way-kept">
      <span className="state fine">{isOpenDay ? "This is the day now" : "Kept as a variant"}</span>
      <button
        type="button"
        className="primary"
        // The keyboard goes on where the pressed button was.
        autoFocus={fresh}
        onClick={() => view.setState({ screen: "variants", compared: [variant] })}
      >
        Compare
      </button>
      <button
        type="button"
        aria-disabled={isOpenDay}
        title={isOpenDay ? "It is the day already." : undefined}
        onClick={() => {
          if (!isOpenDay) session.adoptVariant(variant);
        }}
      >
        Adopt
      </button>
    </div>
  );
}

function Dropped({ tasks }: { readonly tasks: readonly string[] }) {
  const plan = useSession((state) => state.plan);
  const byId = useSession(shownTasks);
  const isMust = (task: string): boolean => byId.get(task)?.must ?? false;
  return (
    <details>
      <summary>{counted(tasks.length, "task")} dropped</summary>
      <ul>
        {tasks
          .toSorted((a, b) => Number(isMust(b)) - Number(isMust(a)))
          .map((task) => (
            <li key={task}>
              {numberedTask(plan, task)} {isMust(task) && <b className="state breach">must-do</b>}
            </li>
          ))}
      </ul>
    </details>
  );
}

/** Every placed task that starts at another time or is done by others. */
function Moves(props: { readonly plan: Plan; readonly sentences: readonly string[] }) {
  const { plan, sentences } = props;
  return (
    <details open={sentences.length <= FEW}>
      <summary>{counted(sentences.length, "placed task moves", "placed tasks move")}</summary>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>
            <Prose words={numberedSentence(plan, sentence)} />
          </li>
        ))}
      </ul>
    </details>
  );
}

/** `1 must-do task, worth 40`, or that no task is lost. */
function costWords({ cost, dropped }: Relaxation): string {
  const parts = [
    ...(cost.mustLost > 0 ? [`${counted(cost.mustLost, "must-do task")} lost`] : []),
    ...(cost.worthLost > 0 ? [`worth ${grouped(cost.worthLost)} lost`] : []),
  ];
  return parts.length > 0 ? parts.join(", ") : dropped.length > 0 ? "no worth lost" : "no task lost";
}

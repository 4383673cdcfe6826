import type { Chance, MarginOdds, OddsReport } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { fromChance, fromTime } from "../../session/index.ts";
import { clockText, counted, evaName, fixed, numberedTask } from "../../words/index.ts";
import { useDial } from "../dial.ts";
import { From } from "../parts/from/from.tsx";
import { CONSUMABLE_WORDS } from "../words.ts";

const CONSUMABLES: readonly MarginOdds["consumable"][] = ["oxygen", "co2", "water", "battery"];
const BAR_PX = 132;

/** A chance of a report, and what it is the chance of. */
interface ReportedChance {
  readonly report: OddsReport;
  readonly of: string;
  readonly chance: Chance;
}

/** A chance in the report's own words, with a rule from 0 to 100 % beside it: the sampling interval and the count. */
function ChanceOf({ report, of, chance }: ReportedChance) {
  const at = (share: number): number => 1 + share * (BAR_PX - 2);
  return (
    <span className="odds-chance">
      <svg width={BAR_PX} height={14} aria-hidden="true">
        <line x1={1} x2={BAR_PX - 1} y1={11} y2={11} className="chance-rule" />
        {[0, 0.25, 0.5, 0.75, 1].map((share) => (
          <line key={share} x1={at(share)} x2={at(share)} y1={8} y2={11} className="chance-rule" />
        ))}
        <rect x={1} width={at(chance.low) - 1} y={3} height={8} className="chance-sure" />
        <rect
          x={at(chance.low)}
          width={Math.max(2, at(chance.high) - at(chance.low))}
          y={3}
          height={8}
          className="chance-interval"
        />
        <line x1={at(chance.share)} x2={at(chance.share)} y1={0} y2={13} className="chance-mark" />
      </svg>
      <From of={of} known={() => fromChance(report, of, chance)}>
        {chance.words}
      </From>
    </span>
  );
}

/** A chance in the report's own words; where the true one lies stands apart. */
export function ChanceWords({ report, of, chance }: ReportedChance) {
  const at = chance.words.indexOf(" (");
  return (
    <span className="odds-words">
      <From of={of} known={() => fromChance(report, of, chance)}>
        {at < 0 ? chance.words : chance.words.slice(0, at)}
      </From>
      {at >= 0 && <span className="note">{chance.words.slice(at)}</span>}
    </span>
  );
}

/** By EVA: the chance that it closes inside its limits, in all and by limit, and when it closes. */
export function EvaOddsTable({ plan, report }: { readonly plan: Plan; readonly report: OddsReport }) {
  return (
    <section aria-label="EVAs" className="odds-table" tabIndex={0}>
      <h3>Each EVA closes inside its limits</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">EVA</th>
            <th scope="col">Inside all limits</th>
            <th scope="col">Duration and ingress</th>
            {CONSUMABLES.map((kind) => (
              <th key={kind} scope="col">
                {CONSUMABLE_WORDS[kind]}
              </th>
            ))}
            <th scope="col">Every must-do done</th>
            <th scope="col">Nothing missed</th>
            <th scope="col">Carried over from before</th>
            <th scope="col">Ingress</th>
          </tr>
        </thead>
        <tbody>
          {report.evas.map((one) => (
            <EvaRow key={one.eva} report={report} eva={one} name={evaName(plan, one.eva)} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** What is told of one EVA. */
interface EvaProps {
  readonly report: OddsReport;
  readonly name: string;
  readonly eva: OddsReport["evas"][number];
}

function EvaRow({ report, name, eva }: EvaProps) {
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>
        <ChanceOf report={report} of={`${name} inside all limits`} chance={eva.closes} />
      </td>
      <td>
        <ChanceWords report={report} of={`${name} inside its times`} chance={eva.duration} />
      </td>
      {CONSUMABLES.map((kind) => (
        <td key={kind}>
          <ChanceWords
            report={report}
            of={`${name} above every reserve of ${CONSUMABLE_WORDS[kind]}`}
            chance={eva.reserves[kind]}
          />
        </td>
      ))}
      <td>
        {eva.must ? (
          <ChanceWords report={report} of={`every must-do of ${name} done`} chance={eva.must} />
        ) : (
          <span className="note">has none</span>
        )}
      </td>
      <td>
        <ChanceWords report={report} of={`${name} with nothing missed`} chance={eva.asPlanned} />
      </td>
      <td>
        <Carried report={report} name={name} eva={eva} />
      </td>
      <td className="odds-times">
        <Ingress report={report} name={name} eva={eva} />
      </td>
    </tr>
  );
}

/** By when the EVA closes on half of the days and on nearly all, beside its limit. */
function Ingress({ report, name, eva: { eva, ingressS, limitS } }: EvaProps) {
  const dial = useDial();
  const by = (atS: number): string => clockText(dial, minuteShown(atS, limitS), eva);
  return (
    <>
      half by{" "}
      <From of={`ingress of ${name} on half of the days`} known={() => fromTime(report, 2)}>
        {by(ingressS[2])}
      </From>
      , 95 % by{" "}
      <From of={`ingress of ${name} on 95 % of the days`} known={() => fromTime(report, 4)}>
        {by(ingressS[4])}
      </From>
      ; limit {clockText(dial, limitS, eva)}
    </>
  );
}

/** What the EVAs before leave this one with: a late start, and work that cannot be done without theirs. */
function Carried({ report, name, eva }: EvaProps) {
  const { outLate, needsMissed } = eva;
  if (outLate.count === 0 && needsMissed.count === 0) return <span className="note">nothing</span>;
  return (
    <>
      {outLate.count > 0 && (
        <>
          goes out late <ChanceWords report={report} of={`${name} out later than planned`} chance={outLate} />
        </>
      )}
      {outLate.count > 0 && needsMissed.count > 0 && "; "}
      {needsMissed.count > 0 && (
        <>
          misses what was needed of another{" "}
          <ChanceWords
            report={report}
            of={`${name} missing something that another EVA did not do`}
            chance={needsMissed}
          />
        </>
      )}
    </>
  );
}

/** Placed tasks, each with what it is missed by: must-do ones first, then those that cost most; those that were always done are folded. */
export function TaskOddsTable({ plan, report }: { readonly plan: Plan; readonly report: OddsReport }) {
  const rank = new Map(report.spoils.map(({ task }, k) => [task, k]));
  const place = (task: string): number => rank.get(task) ?? report.spoils.length;
  const inOrder = report.tasks.toSorted(
    (a, b) => Number(b.must) - Number(a.must) || place(a.task) - place(b.task) || (a.task < b.task ? -1 : 1),
  );
  const always = inOrder.filter(({ done }) => done.count === done.of);
  const must = always.filter((one) => one.must).length;
  const shown = inOrder.filter((one) => !always.includes(one));
  return (
    <section aria-label="Tasks" className="odds-table" tabIndex={0}>
      <h3>What is missed, and why</h3>
      {shown.length > 0 && <Tasks plan={plan} report={report} tasks={shown} />}
      {always.length > 0 && (
        <details>
          <summary>
            {counted(
              always.length,
              shown.length > 0 ? "more task" : "task",
              shown.length > 0 ? "more tasks" : "tasks",
            )}{" "}
            done on every simulated day{must > 0 && `, ${must} must-do`}: {always[0]!.done.words} each
          </summary>
          <Tasks plan={plan} report={report} tasks={always} />
        </details>
      )}
    </section>
  );
}

function Tasks(props: {
  readonly plan: Plan;
  readonly report: OddsReport;
  readonly tasks: OddsReport["tasks"];
}) {
  const { plan, report, tasks } = props;
  const nameOf = (id: string): string => numberedTask(plan, id);
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Task</th>
          <th scope="col">Done</th>
          <th scope="col">Costs on average</th>
          <th scope="col">Missed mostly because</th>
          <th scope="col">Window met</th>
        </tr>
      </thead>
      <tbody>
        {tasks.map(({ task, must, done, window }) => {
          const spoil = report.spoils.find((one) => one.task === task);
          return (
            <tr key={task}>
              <th scope="row">
                {nameOf(task)}
                {must && <b className="must-count">must-do</b>}
              </th>
              <td>
                <ChanceOf report={report} of={`${nameOf(task)} done`} chance={done} />
              </td>
              <td>
                {spoil ? `worth ${fixed(spoil.costs, 1, "up")}` : <span className="note">nothing</span>}
              </td>
              <td>{spoil?.reason ?? <span className="note">never missed</span>}</td>
              <td>
                {window ? (
                  <ChanceWords report={report} of={`${nameOf(task)} inside its window`} chance={window} />
                ) : (
                  <span className="note">no window</span>
                )}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/**
 * The moment by which something is done, as it is said: up to the next whole minute, never too early. Where it keeps its limit and that
 * minute does not, up to the next second.
 */
export function minuteShown(atS: number, limitS: number): number {
  const minuteS = Math.ceil(atS / 60) * 60;
  const secondS = Math.ceil(atS);
  return minuteS > limitS && secondS <= limitS ? secondS : minuteS;
}

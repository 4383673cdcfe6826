import { callWords } from "../../session/index.ts";
import { clock, crewName } from "../../words/index.ts";
import { consumableWords } from "../words.ts";
import { useRehearsed } from "./context.ts";
import { gaugeFigure, unitOf } from "./gauges.ts";

/** All that was called, the latest first. */
export function Log() {
  const { plan, rehearsal } = useRehearsed();
  return (
    <section className="rehearsal-log" aria-label="Log">
      <h3>Log</h3>
      <ol aria-live="polite" aria-relevant="additions">
        {rehearsal.calls
          .map((call, i) => ({ call, i }))
          .toReversed()
          .map(({ call, i }) => (
            <li key={i} className={call.kind}>
              <b>{clock(call.atS)}</b> {callWords(plan, call)}
            </li>
          ))}
      </ol>
      {rehearsal.calls.length === 0 && <p className="note">Nothing was called yet.</p>}
      <Readings />
    </section>
  );
}

/** Gauges as they were read out beside what was worked out for the moment. */
function Readings() {
  const { plan, reads } = useRehearsed();
  if (reads.length === 0) return null;
  return (
    <table>
      <caption className="note">Gauges: as read, as worked out</caption>
      <tbody>
        {reads.map(({ reading, expected, most }, i) => {
          const { consumable } = reading;
          const unit = unitOf(consumable);
          return (
            <tr key={i}>
              <td>{clock(reading.atS)}</td>
              <th scope="row">
                {crewName(plan, reading.crew)}, {consumableWords(consumable)}
              </th>
              <td>
                {reading.left} {unit}
              </td>
              <td>
                {expected === null
                  ? "nobody was out: held against nothing"
                  : `${gaugeFigure(expected, consumable, "down")} ${unit}`}
              </td>
              <td>
                {expected !== null && most < expected && (
                  <span className="state tight">{gaugeFigure(expected - most, consumable, "up")} less</span>
                )}
                {most < reading.left && (
                  <span className="note">
                    {" "}
                    counts as {most} {unit}, which it read before: nothing outside fills a suit
                  </span>
                )}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

import type { OddsReport } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { ChanceWords } from "./chances.tsx";

/** Which tasks are missed and why: must-do tasks first, the most often missed first. */
export function Spoils({ plan, report }: { readonly plan: Plan; readonly report: OddsReport }) {
  const name = (task: string): string => plan.tasks.find((one) => one.id === task)?.name ?? task;
  return (
    <section aria-label="What is missed, and why">
      <h3>What is missed, and why</h3>
      {report.spoils.length === 0 ? (
        <p>Nothing was missed on any of these days.</p>
      ) : (
        <table className="odds-table">
          <thead>
            <tr>
              <th scope="col">Task</th>
              <th scope="col">Missed</th>
              <th scope="col">Mostly because</th>
            </tr>
          </thead>
          <tbody>
            {report.spoils.map(({ task, must, missed, reason }) => (
              <tr key={task}>
                <th scope="row">
                  {name(task)}
                  {must && (
                    <>
                      {" "}
                      <span className="state open">must-do</span>
                    </>
                  )}
                </th>
                <td>
                  <ChanceWords report={report} of={`${name(task)} is missed`} chance={missed} />
                </td>
                <td>{reason}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

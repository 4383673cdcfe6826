import type { Plan } from "../../plan/index.ts";
import type { Making } from "../look.ts";
import { MakingReady } from "./makingready.tsx";

/** The day as the document has it, painted before anything is worked out: EVAs, lanes, tasks by name. It says that nobody has judged it. */
export function FirstFrame({ plan, making }: { readonly plan: Plan; readonly making: Making }) {
  const onLine = new Set(plan.schedule.placements.map(({ task }) => task));
  const bench = plan.tasks.filter(({ id }) => !onLine.has(id));
  return (
    <div className="app first-frame">
      <header className="first-head">
        <b>{plan.title}</b>
        <MakingReady {...making} />
      </header>
      <main className="first-lanes" aria-busy="true">
        {plan.evas.map((eva) => (
          <Lanes key={eva.id} plan={plan} eva={eva} />
        ))}
        {bench.length > 0 && (
          <section aria-label="Bench">
            <h2>Bench</h2>
            <p>{bench.map(({ name }) => name).join(" · ")}</p>
          </section>
        )}
      </main>
      <footer className="safety">
        <b>Planning and training aid.</b> Flight rules, the flight surgeon, and the radiation and range safety
        authority in charge decide.
      </footer>
    </div>
  );
}

/** The lanes of an EVA, its placed tasks where they stand on it at their likely durations. */
function Lanes({ plan, eva }: { readonly plan: Plan; readonly eva: Plan["evas"][number] }) {
  const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
  const blocks = plan.schedule.placements
    .filter((one) => one.eva === eva.id)
    .map(({ task, crew, startS }) => {
      const known = tasks.get(task);
      return { task, crew, startS, name: known?.name ?? task, endS: startS + (known?.duration.likelyS ?? 0) };
    });
  const fromS = Math.min(eva.earliestEgressS, ...blocks.map(({ startS }) => startS));
  const toS = Math.max(fromS + eva.longestS, ...blocks.map(({ endS }) => endS));
  const share = (atS: number): string => `${(100 * (atS - fromS)) / Math.max(1, toS - fromS)}%`;
  return (
    <section aria-label={eva.name}>
      <h2>{eva.name}</h2>
      {eva.crew.map((member) => (
        <div key={member} className="first-lane">
          <span>{plan.crew.find(({ id }) => id === member)?.name ?? member}</span>
          <ul>
            {blocks
              .filter(({ crew }) => crew.includes(member))
              .map(({ task, name, startS, endS }) => (
                <li key={task} style={{ left: share(startS), right: `calc(100% - ${share(endS)})` }}>
                  {name}
                </li>
              ))}
          </ul>
        </div>
      ))}
    </section>
  );
}

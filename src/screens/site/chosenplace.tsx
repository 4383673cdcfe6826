import type { SiteLight, SitePlace } from "../../answers/index.ts";
import type { Place, Plan, Task } from "../../plan/index.ts";
import { grouped, lasting, metres, numberedTask } from "../../words/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import { From } from "../parts/from/from.tsx";
import { useSite, useSiteView } from "./context.ts";
import type { SiteCommands } from "./commands.ts";
import { lightWords } from "./lightwords.ts";

/** The chosen place: its figures with where they come from, its light to come, its tasks. */
export function ChosenPlace(props: {
  readonly plan: Plan;
  readonly known: SitePlace;
  readonly light: SiteLight | null;
  readonly minuteS: number;
  readonly time: (atS: number) => string;
  readonly commands: SiteCommands;
}) {
  const { plan, known, light, minuteS, time, commands } = props;
  useView((state) => state.clock);
  const place = plan.site.places.find((one) => one.id === known.id);
  if (!place) return null;
  return (
    <section className="site-chosen" aria-label={place.name}>
      <ChosenHead place={place} commands={commands} />
      <p>
        {sided(place.eastM, "east", "west")}, {sided(place.northM, "north", "south")} of the lander
        {known.upM !== null && `, ${heightWords(known.upM)}`}.
      </p>
      {known.homeS >= 0 ? (
        <div>
          Walk back <b>{lasting(known.homeS, "up")}</b>, {metres(known.homeM, "up")} at the walk-back pace,
          rounded up. <From of={`walk back from ${place.name}`} from={known.from} />
        </div>
      ) : (
        <p className="state breach">There is no way home from here.</p>
      )}
      <div>
        {lightWords(known, minuteS, time, light?.sun?.elevationDeg ?? null)}{" "}
        <From of={`the sun at ${place.name}`} from={light?.from ?? []} />
      </div>
      <TasksHere plan={plan} place={place} time={time} />
    </section>
  );
}

/** Its name, and what is done with it. */
function ChosenHead(props: { readonly place: Place; readonly commands: SiteCommands }) {
  const { place, commands } = props;
  const { siteView } = useSite();
  const inHand = useSiteView((state) => state.moving?.place === place.id);
  return (
    <div className="site-chosen-head">
      <h2 title={place.name}>{place.name}</h2>
      {place.kind !== "lander" && (
        <button
          type="button"
          aria-pressed={inHand}
          onClick={() => {
            if (inHand) commands.commit();
            else {
              commands.take(place.id);
              document.querySelector<HTMLElement>(".map-stage")?.focus();
            }
          }}
        >
          {inHand ? "Set down" : "Move by arrows"}
        </button>
      )}
      <button type="button" className="quiet" onClick={() => siteView.setState({ place: null })}>
        Close
      </button>
    </div>
  );
}

/** The tasks of a place in the order of their starts, those on the bench last. */
function TasksHere(props: {
  readonly plan: Plan;
  readonly place: Place;
  readonly time: (atS: number) => string;
}) {
  const { plan, place, time } = props;
  const { session, view } = useApp();
  const selection = useSession((state) => state.selection);
  const starts = new Map(plan.schedule.placements.map((one) => [one.task, one.startS]));
  const tasks = plan.tasks
    .filter((task) => task.place === place.id || task.endPlace === place.id)
    .sort((a, b) => byStart(starts, a, b));
  if (tasks.length === 0) return <p className="note">No task here.</p>;
  return (
    <ul aria-label={`Tasks at ${place.name}`}>
      {tasks.map((task) => {
        const startS = starts.get(task.id);
        return (
          <li key={task.id}>
            <button
              type="button"
              className="quiet"
              aria-pressed={selection.includes(task.id)}
              onClick={() => {
                session.select([task.id]);
                if (startS !== undefined) view.setState({ cursorS: startS, minuteS: startS });
              }}
            >
              {numberedTask(plan, task.id)}
            </button>
            <span className="note">{startS === undefined ? "on the bench" : time(startS)}</span>
          </li>
        );
      })}
    </ul>
  );
}

function byStart(starts: ReadonlyMap<string, number>, a: Task, b: Task): number {
  const [aS, bS] = [starts.get(a.id) ?? Infinity, starts.get(b.id) ?? Infinity];
  return aS < bS ? -1 : aS > bS ? 1 : 0;
}

/** `12 m above its ground`, that of the lander. */
function heightWords(upM: number): string {
  const whole = Math.round(upM);
  if (whole === 0) return "level with its ground";
  return `${grouped(Math.abs(whole))} m ${whole > 0 ? "above" : "below"} its ground`;
}

/** `138 m west`. */
function sided(metres: number, ahead: string, behind: string): string {
  const whole = Math.round(metres);
  return `${grouped(Math.abs(whole))} m ${whole < 0 ? behind : ahead}`;
}

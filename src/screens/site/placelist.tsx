import { useEffect, useRef } from "react";
import type { SiteLight, SitePlace } from "../../answers/index.ts";
import type { Interval } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import { angle, bearing, grouped, lasting, metres, numberedTask, signed } from "../../words/index.ts";
import { useDesk, useLook, useAround } from "../context.ts";
import { useSite, useSiteLook } from "./around.ts";
import type { SiteCommands } from "./commands.ts";
import { From } from "../parts/from/from.tsx";

/** Every place with its way home and its light, for those who read and those who hear the map. */
export function PlaceList(props: {
  readonly plan: Plan;
  readonly places: readonly SitePlace[];
  readonly light: SiteLight | null;
  readonly minuteS: number;
  readonly time: (atS: number) => string;
  readonly commands: SiteCommands;
}) {
  const { plan, light, minuteS, time, commands } = props;
  const chosen = useSiteLook((state) => state.place);
  const byId = new Map(props.places.map((one) => [one.id, one]));
  const row = useRef<HTMLTableRowElement>(null);
  useEffect(() => {
    row.current?.scrollIntoView({ block: "nearest" });
  }, [chosen]);
  return (
    <section className="site-places" aria-label="Places">
      <div className="site-table" tabIndex={0} role="region" aria-label="List of places">
        <table>
          <caption>
            Places at {time(minuteS)}
            {light?.sun && (
              <>
                , sun {angle(light.sun.elevationDeg, "down")} over a level horizon at{" "}
                {Math.round(light.sun.azimuthDeg)}°
              </>
            )}
          </caption>
          <thead>
            <tr>
              <th scope="col">Place</th>
              <th scope="col">From lander</th>
              <th scope="col">Walk back</th>
              <th scope="col">Light</th>
            </tr>
          </thead>
          <tbody>
            {plan.site.places.map((place) => {
              const known = byId.get(place.id);
              return (
                <tr
                  key={place.id}
                  ref={place.id === chosen ? row : undefined}
                  className={place.id === chosen ? "is-chosen" : undefined}
                >
                  <th scope="row">
                    <button
                      type="button"
                      className="quiet"
                      aria-pressed={place.id === chosen}
                      onClick={() => commands.choose(place.id === chosen ? null : place.id)}
                    >
                      {place.name}
                    </button>
                  </th>
                  <td>{known ? fromLander(known) : "…"}</td>
                  <td>{known ? walkback(known) : "…"}</td>
                  <td>{known ? lightWord(known, minuteS) : "…"}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      {chosen !== null && byId.get(chosen) && (
        <Chosen {...props} known={byId.get(chosen)!} light={light} time={time} />
      )}
    </section>
  );
}

/** The chosen place: its figures with where they come from, its light to come, its tasks. */
function Chosen(props: {
  readonly plan: Plan;
  readonly known: SitePlace;
  readonly light: SiteLight | null;
  readonly minuteS: number;
  readonly time: (atS: number) => string;
  readonly commands: SiteCommands;
}) {
  const { plan, known, light, minuteS, time, commands } = props;
  const { desk, look } = useAround();
  const { siteLook } = useSite();
  const selection = useDesk((state) => state.selection);
  const moving = useSiteLook((state) => state.moving);
  useLook((state) => state.clock);
  const place = plan.site.places.find((one) => one.id === known.id);
  if (!place) return null;
  const spots = new Map(plan.schedule.placements.map((one) => [one.task, one]));
  const startOf = (task: string): number => spots.get(task)?.startS ?? Infinity;
  const tasks = plan.tasks
    .filter((task) => task.place === place.id || task.endPlace === place.id)
    .sort((a, b) => (startOf(a.id) < startOf(b.id) ? -1 : startOf(a.id) > startOf(b.id) ? 1 : 0));
  const inHand = moving?.place === place.id;
  return (
    <section className="site-chosen" aria-label={place.name}>
      <div className="site-chosen-head">
        <h2>{place.name}</h2>
        {place.kind !== "lander" && (
          <button
            type="button"
            aria-pressed={inHand}
            onClick={() => {
              if (inHand) commands.setDown();
              else {
                commands.take(place.id);
                document.querySelector<HTMLElement>(".map-stage")?.focus();
              }
            }}
          >
            {inHand ? "Set down" : "Move by arrows"}
          </button>
        )}
        <button type="button" className="quiet" onClick={() => siteLook.setState({ place: null })}>
          Close
        </button>
      </div>
      <p>
        {sided(place.eastM, "east", "west")}, {sided(place.northM, "north", "south")} of the lander
        {known.upM !== null && <>, {signed(Math.round(known.upM))} m against its ground</>}.
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
      {tasks.length === 0 ? (
        <p className="note">No task here.</p>
      ) : (
        <ul aria-label={`Tasks at ${place.name}`}>
          {tasks.map((task) => {
            const spot = spots.get(task.id);
            return (
              <li key={task.id}>
                <button
                  type="button"
                  className="quiet"
                  aria-pressed={selection.includes(task.id)}
                  onClick={() => {
                    desk.select([task.id]);
                    if (spot) look.setState({ cursorS: spot.startS, minuteS: spot.startS });
                  }}
                >
                  {numberedTask(plan, task.id)}
                </button>
                <span className="note">{spot ? time(spot.startS) : "on the bench"}</span>
              </li>
            );
          })}
        </ul>
      )}
    </section>
  );
}

/** `985 m, 061°`. */
function fromLander({ distanceM, bearingDeg }: SitePlace): string {
  if (Number.isNaN(bearingDeg)) return "here";
  return `${metres(distanceM, "up")}, ${bearing(bearingDeg)}`;
}

function walkback({ homeS }: SitePlace): string {
  return homeS < 0 ? "no way" : homeS === 0 ? "–" : lasting(homeS, "up");
}

/** What a place's light is at a moment. */
export function lightWord({ lit, shaded }: SitePlace, atS: number): "lit" | "shadow" | "unknown" {
  return spanAt(lit, atS) ? "lit" : spanAt(shaded, atS) ? "shadow" : "unknown";
}

/** The same in a sentence, with when it changes; `sunDeg` is the sun over a level horizon, null where it is not known. */
export function lightWords(
  { lit, shaded }: SitePlace,
  atS: number,
  time: (atS: number) => string,
  sunDeg: number | null,
): string {
  const now = spanAt(lit, atS);
  if (now) return `Lit from ${time(now.startS)} to ${time(now.endS)}.`;
  const dark = spanAt(shaded, atS);
  if (!dark && (lit === null || shaded === null)) {
    if (sunDeg === null) return "Whether the sun shines here is not known.";
    const stands = `Sun ${sunDeg > 0 ? "up" : "down"} ${angle(Math.abs(sunDeg), "down")}`;
    return `${stands} over a level horizon, shadow unknown: no heights are known here.`;
  }
  if (!dark) return "Whether the sun shines here now is not known: unknown ground may hide it.";
  const next = lit?.find((one) => one.startS > atS);
  // Lit follows shadow in the next second or so, or what is between is not known.
  const isNext = next !== undefined && next.startS - dark.endS <= 2;
  if (isNext) return `In shadow until ${time(next.startS)}.`;
  return lit !== null && shaded?.at(-1) === dark && !next
    ? "In shadow to the end of the stay."
    : `In shadow to ${time(dark.endS)}, then not known.`;
}

function spanAt(list: readonly Interval[] | null, atS: number): Interval | undefined {
  return list?.find((one) => one.startS <= atS && atS <= one.endS);
}

/** `138 m west`. */
function sided(metres: number, ahead: string, behind: string): string {
  const whole = Math.round(metres);
  return `${grouped(Math.abs(whole))} m ${whole < 0 ? behind : ahead}`;
}

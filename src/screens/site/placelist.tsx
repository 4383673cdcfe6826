import { useEffect, useRef } from "react";
import type { SiteLight, SitePlace } from "../../answers/index.ts";
import type { Place, Plan } from "../../plan/index.ts";
import { angle, bearing, lasting, metres } from "../../words/index.ts";
import { useSiteView } from "./context.ts";
import type { SiteCommands } from "./commands.ts";
import { lightWord } from "./lightwords.ts";

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
  const chosen = useSiteView((state) => state.place);
  const byId = new Map(props.places.map((one) => [one.id, one]));
  return (
    <section className="site-places" aria-label="Places">
      <div className="site-table" tabIndex={0} role="region" aria-label="List of places">
        <table>
          <caption>
            Places at {time(minuteS)}
            {light?.sun && (
              <>
                , sun {angle(light.sun.elevationDeg, "down")} over a level horizon at{" "}
                {bearing(light.sun.azimuthDeg)}
              </>
            )}
          </caption>
          <thead>
            <tr>
              <th scope="col">Place</th>
              <th scope="col" className="site-amount">
                From lander
              </th>
              <th scope="col" className="site-amount">
                Walk back
              </th>
              <th scope="col">Light</th>
            </tr>
          </thead>
          <tbody>
            {plan.site.places.map((place) => (
              <PlaceRow
                key={place.id}
                place={place}
                known={byId.get(place.id) ?? null}
                chosen={place.id === chosen}
                minuteS={minuteS}
                onChoose={commands.choose}
              />
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

/** A place with its figures, as far as they are known; the chosen one is brought into sight. */
function PlaceRow(props: {
  readonly place: Place;
  readonly known: SitePlace | null;
  readonly chosen: boolean;
  readonly minuteS: number;
  readonly onChoose: (id: string | null) => void;
}) {
  const { place, known, chosen, minuteS, onChoose } = props;
  const row = useRef<HTMLTableRowElement>(null);
  useEffect(() => {
    if (chosen) row.current?.scrollIntoView({ block: "nearest" });
  }, [chosen]);
  return (
    <tr ref={row} className={chosen ? "is-chosen" : undefined}>
      <th scope="row">
        <button
          type="button"
          className="quiet"
          aria-pressed={chosen}
          onClick={() => onChoose(chosen ? null : place.id)}
        >
          {place.name}
        </button>
      </th>
      <td className="site-amount">{known ? fromLander(known) : "…"}</td>
      <td className="site-amount">{known ? walkback(known) : "…"}</td>
      <td>{known ? lightWord(known, minuteS) : "…"}</td>
    </tr>
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

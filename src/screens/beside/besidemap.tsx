import "../site/site.css";
import "./beside.css";
import { useCallback, useMemo, useRef } from "react";
import type { SiteWalks } from "../../answers/index.ts";
import { type Extent, fitted, mapX, mapY, zoomedMap } from "../../editor/map/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { betterDay } from "../../session/index.ts";
import { angle, clockText, counted, crewName, lasting } from "../../words/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import { useDial } from "../dial.ts";
import { minuteOf } from "../minute.ts";
import { useSettled } from "../settled.ts";
import { type SiteParts, useSite, useSiteView } from "../site/context.ts";
import { crewStyle } from "../site/crewstyle.ts";
import { glide } from "../site/glide.ts";
import { useLatest } from "../site/latest.ts";
import { useGroundAndLight } from "../site/light.ts";
import { SiteOfPlan } from "../site/ofplan.tsx";
import type { Picture } from "../site/picture.ts";
import { useFrame, useSize } from "../site/room.ts";
import { doneExtent, evasShown, PAD_PX, placesExtent } from "../site/shown.ts";
import type { Layer } from "../site/siteviewstate.ts";
import { wholeMinute } from "../wholeminute.ts";
import { BesideStage } from "./besidestage.tsx";
import { apartWords, peopleAt, type Person, personWords } from "./people.ts";

/** How long the minute must rest before the light of it is asked for, ms. */
const LIGHT_REST_MS = 160;
const ZOOM = 1.4;

/** What can be shown and hidden on the map beside the lanes. */
const SWITCHES: readonly { readonly layer: Layer; readonly name: string }[] = [
  { layer: "ways", name: "Ways" },
  { layer: "emergency", name: "Walk home" },
  { layer: "contours", name: "Heights" },
  { layer: "shadow", name: "Shadow" },
  { layer: "keepOuts", name: "Keep out" },
];

/** The map of the site beside the lanes: the same day and the same minute as on the line. */
export function BesideMap(props: SiteParts) {
  return (
    <SiteOfPlan {...props}>
      <MapOfDay />
    </SiteOfPlan>
  );
}

function MapOfDay() {
  const room = useRef<HTMLDivElement>(null);
  const size = useSize(room);
  const plan = useSession((state) => state.plan);
  // What is in hand is not walked yet: the map keeps the day as it was, and says so.
  const schedule = useSession((state) => betterDay(state)?.best ?? state.plan.schedule);
  const minuteS = useMinute();
  const lit = useSettled(minuteS, LIGHT_REST_MS);
  const { ground, light } = useGroundAndLight(plan, lit);
  const walked = useWalks(plan, schedule);
  const rings = useRings(plan);
  const walks = walked.answer?.walks ?? null;
  const evaKey = walks ? [...evasShown(walks.verdict, null, minuteS)].join("|") : "";
  const evas = useMemo(() => new Set(evaKey.split("|")), [evaKey]);
  const { view } = useApp();
  // Only the first frame follows from it: after that the map stays where it is.
  const extent = useMemo(() => doneExtent(plan, view.getState().window), [plan, view]);
  const frame = useFrame(size, extent);
  const layers = useSiteView((state) => state.layers);
  const theme = useView((state) => state.theme);
  const picture = useMemo<Picture>(
    () => ({
      ...{ frame, plan, theme, layers, walks, evas },
      ground: ground.answer,
      light: light.answer,
      rings: rings.answer ?? [],
      // Nothing that is painted here follows the minute: people do, and are no part of the picture.
      minuteS: 0,
      place: null,
      moving: false,
      time: String,
    }),
    [frame, plan, theme, layers, walks, evas, ground.answer, light.answer, rings.answer],
  );
  // Where people are is said of the day as it is alone, never of one before it.
  const current = walked.answer?.plan === plan && walked.answer.schedule === schedule ? walks : null;
  const people = useMemo(
    () => (current ? peopleAt(plan, current.courses, minuteS) : []),
    [current, plan, minuteS],
  );
  const problem = ground.problem ?? light.problem ?? walked.problem ?? rings.problem;
  return (
    <section className="beside-map" aria-label="Map beside the lanes">
      <Head minuteS={minuteS} />
      <div ref={room} className="beside-room">
        {size.width > 0 && <BesideStage picture={picture} people={people} schedule={schedule} />}
      </div>
      <Foot picture={picture} people={people} walks={current} minuteS={minuteS} />
      {problem !== null && <p className="state breach">The site could not be worked out: {problem}</p>}
    </section>
  );
}

/** The ways of a day, with the very day that they are of. */
function useWalks(plan: Plan, schedule: Schedule) {
  const { site } = useSite();
  return useLatest(
    useCallback(
      async (signal: AbortSignal) => ({ plan, schedule, walks: await site.walks(plan, signal, schedule) }),
      [site, plan, schedule],
    ),
  );
}

/** The limits of the walk home on emergency oxygen, whatever the minute. */
function useRings(plan: Plan) {
  const { site } = useSite();
  return useLatest(useCallback((signal: AbortSignal) => site.rings(plan, [], signal), [site, plan]));
}

/** The one minute of line and map, inside the stay. */
function useMinute(): number {
  const outings = useSession((state) => state.verdict.outings);
  const lengthS = useSession((state) => state.plan.stay.lengthS);
  const minuteS = useView((state) => wholeMinute(minuteOf(state, outings)));
  return Math.min(lengthS, Math.max(0, minuteS));
}

function Head({ minuteS }: { readonly minuteS: number }) {
  const { view } = useApp();
  const dial = useDial();
  return (
    <header className="beside-map-head">
      <Switches />
      <b className="beside-minute">{clockText(dial, minuteS)}</b>
      <Views />
      <button
        type="button"
        aria-label="Put the map away"
        title="Put the map away; the menu of the clock brings it back"
        onClick={() => view.setState({ mapAway: true })}
      >
        ×
      </button>
    </header>
  );
}

/** What the map shows and what it hides. */
function Switches() {
  const { siteView } = useSite();
  const layers = useSiteView((state) => state.layers);
  return (
    <div className="beside-switches" role="group" aria-label="Shown on the map">
      {SWITCHES.map(({ layer, name }) => (
        <button
          key={layer}
          type="button"
          aria-pressed={layers[layer]}
          onClick={() => siteView.setState({ layers: { ...layers, [layer]: !layers[layer] } })}
        >
          {name}
        </button>
      ))}
    </div>
  );
}

/** How much of the site is in view: closer, farther, what is done now, all. */
function Views() {
  const { session, view } = useApp();
  const { siteView } = useSite();
  const zoom = (factor: number): void => {
    const { frame } = siteView.getState();
    if (frame) glide(siteView, zoomedMap(frame, factor, frame.widthPx / 2, frame.heightPx / 2));
  };
  const fit = (extentOf: (plan: Plan) => Extent) => (): void => {
    const { frame } = siteView.getState();
    const extent = extentOf(session.state.getState().plan);
    if (frame) glide(siteView, fitted(extent, frame.widthPx, frame.heightPx, PAD_PX));
  };
  return (
    <>
      <button type="button" aria-label="Map closer" title="Closer" onClick={() => zoom(ZOOM)}>
        +
      </button>
      <button type="button" aria-label="Map farther" title="Farther" onClick={() => zoom(1 / ZOOM)}>
        −
      </button>
      <button
        type="button"
        aria-label="Map of what is in view"
        title="Show where something is done in the part of the stay that is shown"
        onClick={fit((open) => doneExtent(open, view.getState().window))}
      >
        View
      </button>
      <button
        type="button"
        aria-label="Map of all places"
        title="Show all of the site"
        onClick={fit(placesExtent)}
      >
        All
      </button>
    </>
  );
}

/** Who is where in words, and what the picture does not show. */
function Foot(props: {
  readonly picture: Picture;
  readonly people: readonly Person[];
  readonly walks: SiteWalks | null;
  readonly minuteS: number;
}) {
  const { picture, people, walks, minuteS } = props;
  const { plan } = picture;
  const { sunDeg } = useApp();
  const isInHand = useView((state) => state.inHand !== null);
  const sun = useMemo(() => sunDeg(plan, minuteS), [sunDeg, plan, minuteS]);
  const facts = [
    ...(walks ? apartWords(plan, walks, minuteS) : []),
    sun === null ? "sun not known" : sun < 0 ? "sun down" : `sun ${angle(sun, "down")} up`,
    ...outsideWords(picture, people),
  ];
  return (
    <footer className="beside-foot">
      {isInHand && <p className="note">The ways are those before the move.</p>}
      {walks &&
        people.map((one) => (
          <p key={one.crew}>
            <i style={{ background: `var(--${crewStyle(plan, one.crew).colour})` }}>{one.sign}</i>
            <b>{crewName(plan, one.crew)}</b> {personWords(plan, walks, one)}
          </p>
        ))}
      <p className="note">{facts.join(" · ")}</p>
    </footer>
  );
}

/** What lies outside of the picture. */
function outsideWords({ frame, plan, layers, rings }: Picture, people: readonly Person[]): readonly string[] {
  const seen = (eastM: number, northM: number): boolean => {
    const [x, y] = [mapX(frame, eastM), mapY(frame, northM)];
    return x >= 0 && y >= 0 && x <= frame.widthPx && y <= frame.heightPx;
  };
  const words: string[] = [];
  const gone = people.filter(({ at }) => at && !seen(at.eastM, at.northM));
  if (gone.length > 0)
    words.push(`${gone.map((one) => crewName(plan, one.crew)).join(" and ")} outside the picture`);
  const places = plan.site.places.filter(({ eastM, northM }) => !seen(eastM, northM));
  if (places.length > 0) words.push(`${counted(places.length, "place")} outside the picture`);
  for (const { kind, seconds, lines } of layers.emergency ? rings : []) {
    const shows = lines.some((line) => {
      for (let k = 0; k < line.length; k += 2) if (seen(line[k] ?? NaN, line[k + 1] ?? NaN)) return true;
      return false;
    });
    if (!shows)
      words.push(
        `the ${lasting(seconds, "down")} limit${kind === "shared" ? " with cooling shared" : ""} lies outside the picture`,
      );
  }
  return words;
}

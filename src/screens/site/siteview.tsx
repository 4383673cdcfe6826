import "./site.css";
import { type RefObject, useEffect, useMemo, useRef } from "react";
import type { SiteGround } from "../../answers/index.ts";
import { withPlaceAt } from "../../session/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import { type SiteParts, useSite, useSiteView } from "./context.ts";
import { type SiteCommands, siteCommands } from "./commands.ts";
import { ChosenPlace } from "./chosenplace.tsx";
import { Layers } from "./layers.tsx";
import { MapStage } from "./mapstage.tsx";
import { ZOOM } from "./mapwork.ts";
import { MoveWords } from "./movewords.tsx";
import { SiteOfPlan } from "./ofplan.tsx";
import type { Picture } from "./picture.ts";
import { PlaceList } from "./placelist.tsx";
import { useFrame, useSize } from "./room.ts";
import { evasShown, placesExtent, wholeExtent } from "./shown.ts";
import { useAnswers } from "./siteanswers.ts";
import { useMinute, useTime } from "./siteclock.ts";
import { SiteFiles } from "./sitefiles.tsx";
import type { SiteViewStore } from "./siteviewstate.ts";
import { TimeBar } from "./timebar.tsx";

const WITH_HEIGHTS =
  "Ground, shadow and times are those of a model: what is smaller than a cell of the ground, or beyond its edge, is not in it.";
const WITHOUT_HEIGHTS =
  "This plan has no heights: ways are straight lines with the detour that its rules allow for, and where shadows lie is not known.";

/** The site: map, minute, places, layers. */
export function SiteView(props: SiteParts) {
  return (
    <SiteOfPlan {...props}>
      <Site />
    </SiteOfPlan>
  );
}

function Site() {
  const room = useRef<HTMLDivElement>(null);
  const size = useSize(room);
  const { picture, problem } = usePicture(size);
  const commands = useSiteCommands(picture.minuteS, picture.ground);
  const { plan, walks, minuteS, time } = picture;
  return (
    <div className="site">
      <div className="site-main">
        <MapRoom
          room={room}
          isMeasured={size.width > 0}
          picture={picture}
          commands={commands}
          problem={problem}
        />
        <TimeBar
          plan={plan}
          courses={walks?.courses ?? null}
          minuteS={minuteS}
          widthPx={Math.max(100, size.width - 24)}
          time={time}
          commands={commands}
        />
        <p className="site-safety">
          A walk-back shown is never rounded down. {plan.ground ? WITH_HEIGHTS : WITHOUT_HEIGHTS}
        </p>
      </div>
      <Side picture={picture} time={time} commands={commands} />
    </div>
  );
}

/** The list of places, and below it what is known of the chosen one, the layers and files. */
function Side({
  picture,
  time,
  commands,
}: {
  readonly picture: Picture;
  readonly time: (atS: number) => string;
  readonly commands: SiteCommands;
}) {
  const { plan, walks, light, rings, minuteS } = picture;
  const of = { plan, light, minuteS, time, commands };
  const chosen = useSiteView((state) => state.place);
  const known = walks?.places.find((one) => one.id === chosen);
  const rest = useRef<HTMLDivElement>(null);
  // What is said of a place begins below the list, wherever was read before.
  useEffect(() => {
    if (chosen !== null && rest.current) rest.current.scrollTop = 0;
  }, [chosen]);
  return (
    <div className="site-side">
      <PlaceList {...of} places={walks?.places ?? NONE} />
      <div
        className="site-rest"
        ref={rest}
        tabIndex={0}
        role="region"
        aria-label="Chosen place, layers, files"
      >
        {known && <ChosenPlace {...of} known={known} />}
        <Layers picture={picture} />
        <SiteFiles walks={walks} rings={rings} />
        <p id="map-keys" className="note site-keys">
          Keys on the map: arrows move it, + and − zoom, 0 shows all; N and Shift+N choose the next place and
          the one before, Enter takes the chosen one in hand and sets it down, Escape puts it back; comma and
          full stop move the minute by one, with Shift by ten.
        </p>
      </div>
    </div>
  );
}

const NONE: readonly never[] = [];

/** All that the map is drawn from in a room of this size, and what could not be worked out. */
function usePicture(size: { readonly width: number; readonly height: number }): {
  readonly picture: Picture;
  readonly problem: string | null;
} {
  const open = useSession((state) => state.plan);
  const verdict = useSession((state) => state.verdict);
  const moving = useSiteView((state) => state.moving);
  const plan = useMemo(
    () => (moving ? withPlaceAt(open, moving.place, moving.eastM, moving.northM) : open),
    [open, moving],
  );
  const minuteS = useMinute();
  const time = useTime();
  const { ground, light, rings, walks, problem } = useAnswers(minuteS, plan);
  const extent = useMemo(() => placesExtent(open), [open]);
  const frame = useFrame(size, extent);
  const layers = useSiteView((state) => state.layers);
  const place = useSiteView((state) => state.place);
  const theme = useView((state) => state.theme);
  const shownEva = useSiteView((state) => state.eva);
  const evas = useMemo(() => evasShown(verdict, shownEva, minuteS), [verdict, shownEva, minuteS]);
  const picture = useMemo<Picture>(
    () => ({
      ...{ frame, plan, theme, layers, ground, light, rings, walks, evas, minuteS, place, time },
      moving: moving !== null,
    }),
    [frame, plan, theme, layers, ground, light, rings, walks, evas, minuteS, place, time, moving],
  );
  return { picture, problem };
}

/** The commands of the map, which can be called by name while the site is shown. */
function useSiteCommands(minuteS: number, ground: SiteGround | null): SiteCommands {
  const { session, view } = useApp();
  const { site, siteView } = useSite();
  const latest = useRef({ minuteS, ground });
  useEffect(() => {
    latest.current = { minuteS, ground };
  });
  const commands = useMemo(
    () =>
      siteCommands({
        ...{ session, view, siteView, site },
        extent: () => wholeExtent(session.state.getState().plan, latest.current.ground),
        minuteS: () => latest.current.minuteS,
      }),
    [session, view, siteView, site],
  );
  useEffect(() => session.commands.add(commands.list), [session, commands]);
  useEffect(() => chosenByTask(session, siteView), [session, siteView]);
  return commands;
}

/** The map with its buttons, and what moving a place does to the day. */
function MapRoom(props: {
  readonly room: RefObject<HTMLDivElement | null>;
  readonly isMeasured: boolean;
  readonly picture: Picture;
  readonly commands: SiteCommands;
  readonly problem: string | null;
}) {
  const { room, isMeasured, picture, commands, problem } = props;
  const before = useSession((state) => state.verdict);
  const moving = useSiteView((state) => state.moving);
  const { plan, walks } = picture;
  return (
    <div ref={room} className="site-room">
      {isMeasured && <MapStage picture={picture} commands={commands} />}
      <div className="map-buttons">
        <button type="button" aria-label="Closer" title="Closer (+)" onClick={() => commands.zoom(ZOOM)}>
          +
        </button>
        <button
          type="button"
          aria-label="Farther"
          title="Farther (−)"
          onClick={() => commands.zoom(1 / ZOOM)}
        >
          −
        </button>
        <button type="button" title="Show all of the site (0)" onClick={commands.fit}>
          All
        </button>
      </div>
      {moving && walks && <MoveWords before={before} place={moving.place} walks={walks} plan={plan} />}
      {problem !== null && (
        <p className="site-problem state breach">The site could not be worked out: {problem}</p>
      )}
    </div>
  );
}

/** A task selected elsewhere chooses its place on the map. */
function chosenByTask(session: ReturnType<typeof useApp>["session"], siteView: SiteViewStore): () => void {
  const follow = (): void => {
    const { selection, plan } = session.state.getState();
    const task = plan.tasks.find((one) => one.id === selection.at(-1));
    const { place } = siteView.getState();
    if (!task || task.place === undefined) return;
    if (place !== task.place && place !== task.endPlace) siteView.setState({ place: task.place });
  };
  follow();
  return session.state.subscribe((now, before) => {
    if (now.selection !== before.selection) follow();
  });
}

import "./site.css";
import { useCallback, useEffect, useMemo, useRef } from "react";
import type { Verdict } from "../../answers/index.ts";
import { type SiteWork, withPlaceAt } from "../../session/index.ts";
import { clock, counted, lasting, placeName, signed, touchdownMs, utcClock } from "../../words/index.ts";
import { useAround, useDesk, useLook } from "../context.ts";
import { SiteContext, useSite, useSiteLook } from "./around.ts";
import { siteCommands } from "./commands.ts";
import { useLatest } from "./latest.ts";
import { useGroundAndLight } from "./light.ts";
import { Layers } from "./layers.tsx";
import { MapStage } from "./mapstage.tsx";
import type { Picture } from "./picture.ts";
import { useFrame, useSize } from "./room.ts";
import { PlaceList } from "./placelist.tsx";
import { evasShown, leftAt, placesExtent, wholeExtent } from "./shown.ts";
import { SiteFiles } from "./sitefiles.tsx";
import type { SiteLook } from "./sitelook.ts";
import { TimeBar } from "./timebar.tsx";

/** The site: map, minute, places, layers. */
export function SiteView(props: { readonly site: SiteWork; readonly siteLook: SiteLook }) {
  const { site, siteLook } = props;
  const around = useMemo(() => ({ site, siteLook }), [site, siteLook]);
  const slot = useDesk((state) => state.slot);
  return (
    <SiteContext value={around}>
      {/* Another plan begins anew: no answer of the one before stands over it. */}
      <Site key={slot} />
    </SiteContext>
  );
}

function Site() {
  const { desk, look } = useAround();
  const { site, siteLook } = useSite();
  const open = useDesk((state) => state.plan);
  const verdict = useDesk((state) => state.verdict);
  const moving = useSiteLook((state) => state.moving);
  const plan = useMemo(
    () => (moving ? withPlaceAt(open, moving.place, moving.eastM, moving.northM) : open),
    [open, moving],
  );
  const minuteS = useMinute();
  const time = useTime();

  const room = useRef<HTMLDivElement>(null);
  const size = useSize(room);
  const { ground, light, rings, walks, problem } = useAnswers(minuteS, plan);

  const latest = useRef({ minuteS, ground });
  useEffect(() => {
    latest.current = { minuteS, ground };
  });
  const commands = useMemo(
    () =>
      siteCommands(
        desk,
        look,
        siteLook,
        site,
        () => wholeExtent(desk.state.getState().plan, latest.current.ground),
        () => latest.current.minuteS,
      ),
    [desk, look, siteLook, site],
  );
  useEffect(() => desk.commands.add(commands.list), [desk, commands]);
  useEffect(() => chosenByTask(desk, siteLook), [desk, siteLook]);

  const extent = useMemo(() => placesExtent(open), [open]);
  const frame = useFrame(size, extent);
  const layers = useSiteLook((state) => state.layers);
  const place = useSiteLook((state) => state.place);
  const theme = useLook((state) => state.theme);
  const shownEva = useSiteLook((state) => state.eva);
  const evas = useMemo(() => evasShown(verdict, shownEva, minuteS), [verdict, shownEva, minuteS]);
  const picture = useMemo<Picture>(
    () => ({
      ...{ frame, plan, theme, layers, ground, light, rings, walks, evas, minuteS, place, time },
      moving: moving !== null,
    }),
    [frame, plan, theme, layers, ground, light, rings, walks, evas, minuteS, place, time, moving],
  );

  return (
    <div className="site">
      <div className="site-main">
        <div ref={room} className="site-room">
          {size.width > 0 && <MapStage picture={picture} commands={commands} />}
          <div className="map-buttons">
            <button type="button" aria-label="Closer" title="Closer (+)" onClick={() => commands.zoom(1.4)}>
              +
            </button>
            <button
              type="button"
              aria-label="Farther"
              title="Farther (−)"
              onClick={() => commands.zoom(1 / 1.4)}
            >
              −
            </button>
            <button type="button" title="Show all of the site (0)" onClick={commands.fit}>
              All
            </button>
          </div>
          {moving && walks && (
            <MoveWords
              before={verdict}
              after={walks.verdict}
              place={moving.place}
              walks={walks}
              plan={plan}
            />
          )}
          {problem !== null && (
            <p className="site-problem state breach">The site could not be worked out: {problem}</p>
          )}
        </div>
        <TimeBar
          plan={plan}
          courses={walks?.courses ?? NONE}
          minuteS={minuteS}
          widthPx={Math.max(100, size.width - 24)}
          time={time}
          commands={commands}
        />
        <p className="site-safety">
          A walk-back shown is never rounded down. Ground, shadow and times are those of a model: what is
          smaller than a cell of the ground is not in it.
        </p>
      </div>
      <div className="site-side">
        <PlaceList
          plan={plan}
          places={walks?.places ?? NONE}
          light={light}
          minuteS={minuteS}
          time={time}
          commands={commands}
        />
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

/** What moving a place does to the day, while it is in hand. */
function MoveWords(props: {
  readonly before: Verdict;
  readonly after: Verdict;
  readonly place: string;
  readonly walks: Picture["walks"];
  readonly plan: Picture["plan"];
}) {
  const { before, after, plan } = props;
  const name = placeName(plan, props.place);
  const homeS = props.walks?.places.find((one) => one.id === props.place)?.homeS ?? -1;
  const first = after.findings.find((one) => one.level === "breach");
  return (
    <div className="site-move panel" role="status">
      <b>{name}</b>
      <span>walk back {homeS < 0 ? "impossible: no way" : lasting(homeS, "up")}</span>
      <span>walked {signed(after.score.walkM - before.score.walkM)} m</span>
      <span className={after.score.breaches > 0 ? "state breach" : "state fine"}>
        {counted(after.score.breaches, "breach", "breaches")}, was {before.score.breaches}
      </span>
      {first && <span className="site-move-why">{first.sentence}</span>}
    </div>
  );
}

/** The engine's answers for what is shown. */
function useAnswers(minuteS: number, plan: Picture["plan"]) {
  const { site } = useSite();
  const open = useDesk((state) => state.plan);
  const verdict = useDesk((state) => state.verdict);
  const askRings = useCallback(
    (signal: AbortSignal) => site.rings(open, leftAt(verdict, minuteS), signal),
    [site, open, verdict, minuteS],
  );
  const askWalks = useCallback((signal: AbortSignal) => site.walks(plan, signal), [site, plan]);
  const { ground, light } = useGroundAndLight(open, minuteS);
  const rings = useLatest(askRings);
  const walks = useLatest(askWalks);
  return {
    ground: ground.answer,
    light: light.answer,
    rings: rings.answer ?? NONE,
    walks: walks.answer,
    problem: ground.problem ?? light.problem ?? rings.problem ?? walks.problem,
  };
}

/** The minute on the map: where the day line is pointed at, else where it was last; at first the first egress. */
function useMinute(): number {
  const first = useDesk((state) => state.verdict.outings[0]?.span.startS ?? 0);
  const lengthS = useDesk((state) => state.plan.stay.lengthS);
  const pointed = useLook((state) => state.cursorS ?? state.minuteS);
  return Math.min(lengthS, Math.max(0, Math.round((pointed ?? first + 3600) / 60) * 60));
}

/** Times to the minute on the chosen clock; phase time is read on the mission's, as many phases are shown at once. */
function useTime(): (atS: number) => string {
  const isUtc = useLook((state) => state.clock === "utc");
  const touchdown = useDesk((state) => touchdownMs(state.plan));
  return useCallback(
    (atS: number) => {
      const whole = Math.round(atS / 60) * 60;
      return isUtc && touchdown !== null ? utcClock(touchdown, whole) : clock(whole);
    },
    [isUtc, touchdown],
  );
}

/** A task selected elsewhere chooses its place on the map. */
function chosenByTask(desk: ReturnType<typeof useAround>["desk"], siteLook: SiteLook): () => void {
  const follow = (): void => {
    const { selection, plan } = desk.state.getState();
    const task = plan.tasks.find((one) => one.id === selection.at(-1));
    const { place } = siteLook.getState();
    if (!task || task.place === undefined) return;
    if (place !== task.place && place !== task.endPlace) siteLook.setState({ place: task.place });
  };
  follow();
  return desk.state.subscribe((now, before) => {
    if (now.selection !== before.selection) follow();
  });
}

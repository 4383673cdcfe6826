import { useCallback, useEffect, useLayoutEffect, useMemo, useRef } from "react";
import { type Box, type LabelWish, layPlates, mapX, mapY, type Plates } from "../../editor/map/index.ts";
import type { Schedule } from "../../plan/index.ts";
import { taskNumber } from "../../words/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import { type Brush, facePx, font } from "../parts/canvas/brush.ts";
import { Canvas, useFace } from "../parts/canvas/canvas.tsx";
import { useSettled } from "../settled.ts";
import { useSite } from "../site/context.ts";
import { crewStyle } from "../site/crewstyle.ts";
import { MapHand } from "../site/maphand.ts";
import { paintFrame } from "../site/paintframe.ts";
import { leftOutWords, mapName, paintLeaders, paintSign } from "../site/paintplaces.ts";
import { paintWays } from "../site/paintways.ts";
import type { Picture } from "../site/picture.ts";
import { useBase } from "../site/usebase.ts";
import { wholeExtent } from "../site/shown.ts";
import { type Person, signPoints } from "./people.ts";
import { tasksByPlace } from "../site/placenumbers.ts";

const NAME_FACE = font(13, 600);
const NUMBER_FACE = font(13, 700);
const PLATE_PX = 22;
/** Padding and border of both sides. */
const PAD_PX = 14;
const NUMBER_GAP_PX = 5;
const SIGN_PX = 10;
/** So many numbers a plate has at most. */
const MOST_NUMBERS = 8;
/** How long the window of the line must rest before plates are laid anew, ms. */
const REST_MS = 150;
/** Scale and north stand in the corner at the lower left. */
const CORNER = { left: 0, right: 240, topFromBottom: 96 };

/** The picture itself: ground, ways and places, plates with their numbers, and people at the minute. */
export function BesideStage(props: {
  readonly picture: Picture;
  readonly people: readonly Person[];
  readonly schedule: Schedule;
}) {
  const { picture, people, schedule } = props;
  const { frame, light, layers, plan } = picture;
  const stage = useRef<HTMLDivElement>(null);
  useMapHand(stage, picture);
  const paintBase = useBase(picture);
  const numbers = useNumbers(picture, schedule);
  const laid = usePlates(picture, numbers);
  const paintTop = useCallback(
    (brush: Brush) => {
      if (layers.ways) paintWays(brush, picture);
      paintLeaders(
        brush,
        laid.plates.map(({ leader }) => leader),
      );
      for (const place of plan.site.places)
        paintSign(brush, place, mapX(frame, place.eastM), mapY(frame, place.northM));
      paintFrame(brush, frame, light);
    },
    [picture, frame, layers, light, plan, laid],
  );
  return (
    <div ref={stage} className="beside-stage" data-map-beside>
      <Canvas widthPx={frame.widthPx} heightPx={frame.heightPx} paint={paintBase} />
      <Canvas widthPx={frame.widthPx} heightPx={frame.heightPx} paint={paintTop} />
      <Marks picture={picture} />
      <Hits picture={picture} />
      <PlateLayer picture={picture} laid={laid} numbers={numbers} />
      <People picture={picture} people={people} laid={laid} />
      {laid.leftOut.length > 0 && <p className="beside-left-out">{leftOutWords(laid.leftOut.length)}</p>}
    </div>
  );
}

type Numbers = ReadonlyMap<string, readonly string[]>;

/** The tasks at every place; another object only when they are others. */
function useNumbers({ plan }: Picture, schedule: Schedule): Numbers {
  const window = useSettled(
    useView((state) => state.window),
    REST_MS,
  );
  const key = useMemo(
    () => JSON.stringify([...tasksByPlace(plan, schedule, window)]),
    [plan, schedule, window],
  );
  return useMemo(() => new Map(JSON.parse(key) as [string, readonly string[]][]), [key]);
}

/** Wheel and pointers move the map; a press on a place selects what is done there, and no place is moved here. */
function useMapHand(stage: React.RefObject<HTMLDivElement | null>, picture: Picture): void {
  const { session } = useApp();
  const { siteView } = useSite();
  const latest = useRef(picture);
  useLayoutEffect(() => {
    latest.current = picture;
  });
  useEffect(() => {
    const element = stage.current;
    if (!element) return;
    const commands = {
      cancel: () => undefined,
      commit: () => undefined,
      extent: () => wholeExtent(latest.current.plan, latest.current.ground),
      choose(place: string | null) {
        const { plan } = session.state.getState();
        const placed = new Set(plan.schedule.placements.map((one) => one.task));
        const here = plan.tasks.filter(
          (task) =>
            place !== null && placed.has(task.id) && (task.place === place || task.endPlace === place),
        );
        session.select(here.map((task) => task.id));
      },
    };
    const press = (event: PointerEvent): void => {
      const number =
        event.target instanceof Element ? event.target.closest<HTMLElement>("[data-task]") : null;
      if (!number?.dataset["task"]) return;
      // The map under it is not pressed with it.
      event.stopImmediatePropagation();
      session.select([number.dataset["task"]]);
    };
    element.addEventListener("pointerdown", press);
    const stop = new MapHand(element, siteView, commands, () => latest.current).listen();
    return () => {
      stop();
      element.removeEventListener("pointerdown", press);
    };
  }, [stage, session, siteView]);
}

/** Plates, and the boxes that they take. */
interface Laid extends Plates {
  readonly boxes: readonly Box[];
}

function usePlates({ frame, plan }: Picture, numbers: Numbers): Laid {
  const face = useFace();
  return useMemo(() => {
    const widthOf = measure();
    const wishes = plan.site.places.map((place): LabelWish => {
      const here = shownNumbers(numbers.get(place.id) ?? []);
      const texts = [...here.map((task) => taskNumber(plan, task)), ...moreText(numbers.get(place.id) ?? [])];
      const width = texts.reduce(
        (sum, text) => sum + NUMBER_GAP_PX + widthOf(NUMBER_FACE, text),
        widthOf(NAME_FACE, mapName(place)),
      );
      return {
        key: place.id,
        x: mapX(frame, place.eastM),
        y: mapY(frame, place.northM),
        radiusPx: SIGN_PX,
        widthPx: Math.ceil(width) + PAD_PX,
        heightPx: PLATE_PX,
        rank: (place.kind === "lander" ? 100 : 0) + (here.length > 0 ? 10 : 0) + here.length,
      };
    });
    const { widthPx, heightPx } = frame;
    const corner = { ...CORNER, top: heightPx - CORNER.topFromBottom, bottom: heightPx };
    const laid = layPlates(wishes, widthPx, heightPx, [corner]);
    const widths = new Map(wishes.map((wish) => [wish.key, wish.widthPx]));
    const boxes = laid.plates.map(({ key, left, top }) => ({
      ...{ left, top },
      right: left + (widths.get(key) ?? 0),
      bottom: top + PLATE_PX,
    }));
    return { ...laid, boxes };
    // Widths are others once the face is here.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [frame, plan, numbers, face]);
}

function shownNumbers(tasks: readonly string[]): readonly string[] {
  return tasks.slice(0, MOST_NUMBERS);
}

function moreText(tasks: readonly string[]): readonly string[] {
  return tasks.length > MOST_NUMBERS ? [`and ${tasks.length - MOST_NUMBERS} more`] : [];
}

/** Widths of texts by the face they are written in, pixels. */
function measure(): (face: string, text: string) => number {
  const ctx = document.createElement("canvas").getContext("2d");
  // Without a canvas nothing is drawn, and a rough width does.
  return ctx ? (face, text) => facePx(ctx, face, text) : (_, text) => 7 * text.length;
}

/** The names of places with the numbers of their tasks; a number is pointed at and pressed as its block is. */
function PlateLayer(props: { readonly picture: Picture; readonly laid: Plates; readonly numbers: Numbers }) {
  const { picture, laid, numbers } = props;
  const { plan } = picture;
  const selection = useSession((state) => state.selection);
  const pointed = useView((state) => state.pointed);
  const target = useView(({ inHand }) => (inHand?.target.at === "place" ? inHand.target.place : null));
  const names = new Map(plan.site.places.map((place) => [place.id, mapName(place)]));
  return (
    <div aria-hidden="true">
      {laid.plates.map(({ key, left, top }) => {
        const tasks = numbers.get(key) ?? [];
        const chosen = tasks.some((task) => selection.includes(task) || task === pointed);
        return (
          <div
            key={key}
            className="plate-of-place"
            data-place={key}
            data-chosen={chosen}
            data-target={key === target}
            style={{ left, top }}
          >
            {names.get(key)}
            {shownNumbers(tasks).map((task) => (
              <b
                key={task}
                data-task={task}
                data-selected={selection.includes(task)}
                data-pointed={task === pointed}
              >
                {taskNumber(plan, task)}
              </b>
            ))}
            {moreText(tasks).map((text) => (
              <b key={text}>{text}</b>
            ))}
          </div>
        );
      })}
    </div>
  );
}

/** Where what is dragged here meets a place: about its sign, and its plate. */
function Hits({ picture: { frame, plan } }: { readonly picture: Picture }) {
  return plan.site.places.map(({ id, eastM, northM }) => (
    <i
      key={id}
      className="beside-hit"
      data-place={id}
      aria-hidden="true"
      style={{ transform: `translate(${mapX(frame, eastM)}px, ${mapY(frame, northM)}px)` }}
    />
  ));
}

/** Rings about the places of what is selected, full, and of what is pointed at, dashed. */
function Marks({ picture }: { readonly picture: Picture }) {
  const { frame, plan } = picture;
  const selection = useSession((state) => state.selection);
  const pointed = useView((state) => state.pointed);
  const placesOf = (tasks: readonly string[]): ReadonlySet<string> =>
    new Set(
      plan.tasks
        .filter((task) => tasks.includes(task.id))
        .flatMap((task) => [task.place, task.endPlace].filter((one) => one !== undefined)),
    );
  const chosen = placesOf(selection);
  const under = placesOf(pointed === null ? [] : [pointed]);
  return plan.site.places.map(({ id, eastM, northM }) =>
    chosen.has(id) || under.has(id) ? (
      <i
        key={id}
        className={chosen.has(id) ? "beside-mark" : "beside-mark pointed"}
        aria-hidden="true"
        style={{ transform: `translate(${mapX(frame, eastM)}px, ${mapY(frame, northM)}px)` }}
      />
    ) : null,
  );
}

/** People at the minute, each by number and colour. */
function People(props: {
  readonly picture: Picture;
  readonly people: readonly Person[];
  readonly laid: Laid;
}) {
  const { people, laid } = props;
  const { frame, plan } = props.picture;
  const isInHand = useView((state) => state.inHand !== null);
  if (isInHand) return null;
  const seen = people.flatMap(({ crew, sign, at }) =>
    at ? [{ crew, sign, x: mapX(frame, at.eastM), y: mapY(frame, at.northM) }] : [],
  );
  const points = signPoints(seen, laid.boxes);
  return seen.map(({ crew, sign }, k) => {
    const point = points[k]!;
    return (
      <i
        key={crew}
        className="beside-person"
        data-person={sign}
        aria-hidden="true"
        style={{
          background: `var(--${crewStyle(plan, crew).colour})`,
          transform: `translate(${point.x}px, ${point.y}px)`,
        }}
      >
        {sign}
      </i>
    );
  });
}

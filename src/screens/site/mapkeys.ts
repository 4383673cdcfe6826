import { pannedMap, showing } from "../../editor/map/index.ts";
import type { ViewStore } from "../viewstate.ts";
import { type MapWork, ZOOM } from "./mapwork.ts";
import { RIM_PX } from "./placework.ts";
import type { SiteViewStore, SiteViewState } from "./siteviewstate.ts";

/** What keys do on the map: they carry the place in hand, move the map, and stand for what is done on it. */

/** How far an arrow moves the map, pixels; and with Shift. */
const STEP_PX = 60;
const FINE_PX = 10;
/** How far an arrow carries a place; and with Shift. */
const COARSE_M = 10;
const FINE_M = 1;

type Arrow = readonly [east: number, north: number];

const ARROWS: Readonly<Record<string, Arrow | undefined>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

const closer = (work: MapWork): void => work.zoom(ZOOM);
const farther = (work: MapWork): void => work.zoom(1 / ZOOM);

const KEYS: Readonly<Record<string, ((work: MapWork, now: SiteViewState) => void) | undefined>> = {
  "+": closer,
  "=": closer,
  "-": farther,
  _: farther,
  "0": (work) => work.fit(),
  n: (work) => work.chooseBeside(1),
  N: (work) => work.chooseBeside(-1),
  ",": (work) => work.minutes(-1),
  ".": (work) => work.minutes(1),
  "<": (work) => work.minutes(-10),
  ">": (work) => work.minutes(10),
  Enter(work, { moving, place }) {
    if (moving) work.commit();
    else if (place !== null) work.take(place);
  },
  Escape(work, { moving }) {
    if (moving) work.cancel();
    else work.choose(null);
  },
};

/** Does what the key says; false when it says nothing here. */
export function mapKey(
  key: string,
  shift: boolean,
  view: ViewStore,
  siteView: SiteViewStore,
  work: MapWork,
): boolean {
  const arrow = ARROWS[key];
  if (arrow)
    return carriesPlace(arrow, shift, view, siteView, work) || movesMap(arrow, shift, siteView, work);
  const act = KEYS[key];
  act?.(work, siteView.getState());
  return act !== undefined;
}

function carriesPlace(
  [east, north]: Arrow,
  shift: boolean,
  view: ViewStore,
  siteView: SiteViewStore,
  work: MapWork,
): boolean {
  const { moving, frame } = siteView.getState();
  if (!moving) return false;
  const step = shift ? FINE_M : COARSE_M;
  const eastM = moving.eastM + east * step;
  const northM = moving.northM + north * step;
  work.carry(moving.place, "keys", eastM, northM);
  view.setState({ spoken: `${Math.round(eastM)} m east, ${Math.round(northM)} m north of the lander.` });
  if (frame) siteView.setState({ frame: showing(frame, { eastM, northM }, RIM_PX) });
  return true;
}

function movesMap([east, north]: Arrow, shift: boolean, siteView: SiteViewStore, work: MapWork): boolean {
  const { frame } = siteView.getState();
  if (!frame) return false;
  const px = shift ? FINE_PX : STEP_PX;
  siteView.setState({ frame: pannedMap(frame, -east * px, north * px, work.extent()) });
  return true;
}

import { type Extent, fitted, pannedMap, showing, zoomedMap } from "../../editor/map/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type Command, type Desk, type SiteWork, withPlaceAt } from "../../session/index.ts";
import type { Look } from "../look.ts";
import { glide } from "./glide.ts";
import { PAD_PX, placesExtent } from "./shown.ts";
import type { SiteLook } from "./sitelook.ts";

/** What can be done on the map, by hand, key or command. */
export interface SiteCommands {
  /** Does what the key says; false when it says nothing here. */
  key(key: string, shift: boolean): boolean;
  /** Chooses a place, and its tasks on the day line; null chooses nothing. */
  choose(place: string | null): void;
  /** Takes the place in hand, or carries the one in hand, to this spot. */
  carry(place: string, by: "pointer" | "keys", eastM: number, northM: number): void;
  /** Sets the place in hand down as one step of the history. */
  setDown(): void;
  /** Puts the place in hand back where it was. */
  letGo(): void;
  take(place: string): void;
  fit(): void;
  zoom(factor: number): void;
  /** The minute is moved by so many. */
  minutes(by: number): void;
  /** The ground that the middle of the map stays inside of. */
  extent(): Extent;
  /** The same by name, for the list of commands. */
  readonly list: readonly Command[];
}

const STEP_PX = 60;
const COARSE_M = 10;
const FINE_M = 1;
const ZOOM = 1.4;

export function siteCommands(
  desk: Desk,
  look: Look,
  siteLook: SiteLook,
  site: SiteWork,
  extent: () => Extent,
  minuteS: () => number,
): SiteCommands {
  const plan = (): Plan => desk.state.getState().plan;
  const placeOf = (id: string) => plan().site.places.find((one) => one.id === id);
  const say = (spoken: string): void => look.setState({ spoken });
  const by = (metres: number): string => `${Math.round(metres)} m`;

  const commands: SiteCommands = {
    extent,
    choose(id) {
      siteLook.setState({ place: id });
      if (id === null) return;
      const place = placeOf(id);
      if (!place) return;
      const placed = new Set(plan().schedule.placements.map((one) => one.task));
      const tasks = plan().tasks.filter((task) => task.place === id || task.endPlace === id);
      desk.select(tasks.filter((task) => placed.has(task.id)).map((task) => task.id));
      const { frame } = siteLook.getState();
      const shown = frame && showing(frame, place, 60);
      if (shown && shown !== frame) glide(siteLook, shown);
      say(`${place.name} chosen, ${tasks.length} ${tasks.length === 1 ? "task" : "tasks"} here.`);
    },
    carry(id, hand, eastM, northM) {
      const place = placeOf(id);
      if (!place) return;
      if (place.kind === "lander") {
        say("The lander stays: coordinates begin there.");
        return;
      }
      siteLook.setState({ place: id, moving: { place: id, by: hand, eastM, northM } });
    },
    setDown() {
      const { moving } = siteLook.getState();
      if (!moving) return;
      siteLook.setState({ moving: null });
      const open = plan();
      if (withPlaceAt(open, moving.place, moving.eastM, moving.northM) === open) return;
      const why = site.movePlace(moving.place, moving.eastM, moving.northM);
      if (why !== null) say(`It was left where it was: ${why}.`);
    },
    letGo() {
      if (!siteLook.getState().moving) return;
      siteLook.setState({ moving: null });
      say("Put back where it was.");
    },
    take(id) {
      const place = placeOf(id);
      if (!place) return;
      commands.carry(id, "keys", place.eastM, place.northM);
      if (place.kind !== "lander")
        say(
          `${place.name} in hand. Arrows move it 10 m, with Shift 1 m. Enter sets it down, Escape puts it back.`,
        );
    },
    fit() {
      const { frame } = siteLook.getState();
      if (frame) glide(siteLook, fitted(placesExtent(plan()), frame.widthPx, frame.heightPx, PAD_PX));
    },
    zoom(factor) {
      const { frame } = siteLook.getState();
      if (frame) glide(siteLook, zoomedMap(frame, factor, frame.widthPx / 2, frame.heightPx / 2));
    },
    minutes(count) {
      const lengthS = plan().stay.lengthS;
      const to = Math.min(lengthS, Math.max(0, Math.round(minuteS() / 60 + count) * 60));
      look.setState({ cursorS: to, minuteS: to });
    },
    key(key, shift) {
      const { moving, frame, place } = siteLook.getState();
      const arrow = ARROWS[key];
      if (arrow && moving) {
        const step = shift ? FINE_M : COARSE_M;
        const eastM = moving.eastM + arrow[0] * step;
        const northM = moving.northM + arrow[1] * step;
        commands.carry(moving.place, "keys", eastM, northM);
        say(`${by(eastM)} east, ${by(northM)} north of the lander.`);
        if (frame) siteLook.setState({ frame: showing(frame, { eastM, northM }, 60) });
        return true;
      }
      if (arrow && frame) {
        const px = shift ? 10 : STEP_PX;
        siteLook.setState({ frame: pannedMap(frame, -arrow[0] * px, arrow[1] * px, extent()) });
        return true;
      }
      switch (key) {
        case "+":
        case "=":
          commands.zoom(ZOOM);
          return true;
        case "-":
        case "_":
          commands.zoom(1 / ZOOM);
          return true;
        case "0":
          commands.fit();
          return true;
        case "n":
          beside(1);
          return true;
        case "N":
          beside(-1);
          return true;
        case ",":
          commands.minutes(-1);
          return true;
        case ".":
          commands.minutes(1);
          return true;
        case "<":
          commands.minutes(-10);
          return true;
        case ">":
          commands.minutes(10);
          return true;
        case "Enter":
          if (moving) commands.setDown();
          else if (place !== null) commands.take(place);
          return true;
        case "Escape":
          if (moving) commands.letGo();
          else commands.choose(null);
          return true;
        default:
          return false;
      }
    },
    list: [],
  };

  function beside(step: number): void {
    const { places } = plan().site;
    const here = places.findIndex((one) => one.id === siteLook.getState().place);
    const next =
      here < 0 ? (step > 0 ? 0 : places.length - 1) : (here + step + places.length) % places.length;
    commands.choose(places[next]?.id ?? null);
  }

  const onMap = (
    id: string,
    name: string,
    run: () => void,
    disabledReason: Command["disabledReason"] = () => null,
  ): Command => ({ id: `map ${id}`, name, group: "Site", keys: [], where: "page", disabledReason, run });
  const chosen = (): string | null =>
    siteLook.getState().place === null ? "Choose a place on the map first." : null;
  return {
    ...commands,
    list: [
      onMap("fit", "Show all of the site", commands.fit),
      onMap("closer", "Map closer", () => commands.zoom(ZOOM)),
      onMap("farther", "Map farther", () => commands.zoom(1 / ZOOM)),
      onMap("next", "Choose the next place", () => beside(1)),
      onMap("previous", "Choose the place before", () => beside(-1)),
      onMap("take", "Take the chosen place in hand", () => commands.take(siteLook.getState().place!), chosen),
    ],
  };
}

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

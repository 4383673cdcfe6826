import { showing } from "../../editor/map/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type Desk, type SiteWork, withPlaceAt } from "../../session/index.ts";
import type { Look } from "../look.ts";
import { glide } from "./glide.ts";
import type { SiteLook } from "./sitelook.ts";

/** Pixels that a place keeps to the rim of the map. */
export const RIM_PX = 60;

/** What is done with places on the map. */
export interface PlaceWork {
  /** Chooses a place, and its tasks on the day line; null chooses nothing. */
  choose(place: string | null): void;
  /** Chooses the next place of the list, or the one before. */
  chooseBeside(step: 1 | -1): void;
  /** Takes the place in hand, or carries the one in hand, to this spot. */
  carry(place: string, by: "pointer" | "keys", eastM: number, northM: number): void;
  /** Sets the place in hand down as one step of the history. */
  setDown(): void;
  /** Puts the place in hand back where it was. */
  letGo(): void;
  take(place: string): void;
}

export function placeWork(desk: Desk, look: Look, siteLook: SiteLook, site: SiteWork): PlaceWork {
  const plan = (): Plan => desk.state.getState().plan;
  const placeOf = (id: string) => plan().site.places.find((one) => one.id === id);
  const say = (spoken: string): void => look.setState({ spoken });

  const work: PlaceWork = {
    choose(id) {
      siteLook.setState({ place: id });
      const place = id === null ? undefined : placeOf(id);
      if (!place) return;
      const count = selectTasksAt(desk, place.id);
      const { frame } = siteLook.getState();
      const shown = frame && showing(frame, place, RIM_PX);
      if (shown && shown !== frame) glide(siteLook, shown);
      say(`${place.name} chosen, ${count} ${count === 1 ? "task" : "tasks"} here.`);
    },
    chooseBeside(step) {
      const { places } = plan().site;
      const here = places.findIndex((one) => one.id === siteLook.getState().place);
      const first = step > 0 ? 0 : places.length - 1;
      const next = here < 0 ? first : (here + step + places.length) % places.length;
      work.choose(places[next]?.id ?? null);
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
      work.carry(id, "keys", place.eastM, place.northM);
      if (place.kind === "lander") return;
      say(
        `${place.name} in hand. Arrows move it 10 m, with Shift 1 m. Enter sets it down, Escape puts it back.`,
      );
    },
  };
  return work;
}

/** Selects the placed tasks of a place; how many tasks it has, placed or not. */
function selectTasksAt(desk: Desk, id: string): number {
  const { schedule, tasks } = desk.state.getState().plan;
  const placed = new Set(schedule.placements.map((one) => one.task));
  const here = tasks.filter((task) => task.place === id || task.endPlace === id);
  desk.select(here.filter((task) => placed.has(task.id)).map((task) => task.id));
  return here.length;
}

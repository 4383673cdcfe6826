import { showing } from "../../editor/map/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type Session, type SiteWork, withPlaceAt } from "../../session/index.ts";
import type { ViewStore } from "../viewstate.ts";
import { glide } from "./glide.ts";
import type { SiteViewStore } from "./siteviewstate.ts";

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
  commit(): void;
  /** Puts the place in hand back where it was. */
  cancel(): void;
  take(place: string): void;
}

export function placeWork(
  session: Session,
  view: ViewStore,
  siteView: SiteViewStore,
  site: SiteWork,
): PlaceWork {
  const plan = (): Plan => session.state.getState().plan;
  const placeOf = (id: string) => plan().site.places.find((one) => one.id === id);
  const say = (spoken: string): void => view.setState({ spoken });

  const work: PlaceWork = {
    choose(id) {
      siteView.setState({ place: id });
      const place = id === null ? undefined : placeOf(id);
      if (!place) return;
      const count = selectTasksAt(session, place.id);
      bringInto(siteView, place);
      say(`${place.name} chosen, ${count} ${count === 1 ? "task" : "tasks"} here.`);
    },
    chooseBeside(step) {
      const { places } = plan().site;
      const here = places.findIndex((one) => one.id === siteView.getState().place);
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
      siteView.setState({ place: id, moving: { place: id, by: hand, eastM, northM } });
    },
    commit() {
      const { moving } = siteView.getState();
      if (!moving) return;
      siteView.setState({ moving: null });
      const open = plan();
      if (withPlaceAt(open, moving.place, moving.eastM, moving.northM) === open) return;
      const why = site.movePlace(moving.place, moving.eastM, moving.northM);
      if (why !== null) say(`It was left where it was: ${why}.`);
    },
    cancel() {
      if (!siteView.getState().moving) return;
      siteView.setState({ moving: null });
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

/** Glides the map so far that a place is in it. */
function bringInto(siteView: SiteViewStore, place: Plan["site"]["places"][number]): void {
  const { frame } = siteView.getState();
  const shown = frame && showing(frame, place, RIM_PX);
  if (shown && shown !== frame) glide(siteView, shown);
}

/** Selects the placed tasks of a place; how many tasks it has, placed or not. */
function selectTasksAt(session: Session, id: string): number {
  const { schedule, tasks } = session.state.getState().plan;
  const placed = new Set(schedule.placements.map((one) => one.task));
  const here = tasks.filter((task) => task.place === id || task.endPlace === id);
  session.select(here.filter((task) => placed.has(task.id)).map((task) => task.id));
  return here.length;
}

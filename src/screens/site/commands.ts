import type { Command } from "../../session/index.ts";
import { mapKey } from "./mapkeys.ts";
import { type MapWork, type MapWorkOn, mapWork, ZOOM } from "./mapwork.ts";
import type { SiteViewStore } from "./siteviewstate.ts";

/** What can be done on the map, by hand, key or command. */
export interface SiteCommands extends MapWork {
  /** Does what the key says; false when it says nothing here. */
  key(key: string, shift: boolean): boolean;
  /** The same by name, for the list of commands. */
  readonly list: readonly Command[];
}

export function siteCommands(on: MapWorkOn): SiteCommands {
  const work = mapWork(on);
  return {
    ...work,
    key: (key, shift) => mapKey(key, shift, on.view, on.siteView, work),
    list: namedCommands(work, on.siteView),
  };
}

function namedCommands(work: MapWork, siteView: SiteViewStore): readonly Command[] {
  const onMap = (
    id: string,
    name: string,
    run: () => void,
    disabledReason: Command["disabledReason"] = () => null,
  ): Command => ({ id: `map ${id}`, name, group: "Site", keys: [], where: "page", disabledReason, run });
  const chosen = (): string | null =>
    siteView.getState().place === null ? "Choose a place on the map first." : null;
  return [
    onMap("fit", "Show all of the site", work.fit),
    onMap("closer", "Map closer", () => work.zoom(ZOOM)),
    onMap("farther", "Map farther", () => work.zoom(1 / ZOOM)),
    onMap("next", "Choose the next place", () => work.chooseBeside(1)),
    onMap("previous", "Choose the place before", () => work.chooseBeside(-1)),
    onMap("take", "Take the chosen place in hand", () => work.take(siteView.getState().place!), chosen),
  ];
}

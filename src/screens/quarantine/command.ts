import type { Command } from "../../session/index.ts";
import type { ViewStore } from "../viewstate.ts";

/** Shows what the autosave has kept aside. */
export function quarantineCommand(view: ViewStore): Command {
  return {
    id: "quarantine",
    name: "Plans kept aside",
    group: "Plan",
    keys: [],
    where: "page",
    disabledReason: () => null,
    run: () => view.setState({ quarantineShown: true }),
  };
}

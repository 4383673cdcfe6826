import type { Command } from "../../session/index.ts";
import type { Look } from "../look.ts";

/** Shows what the autosave has kept aside. */
export function quarantineCommand(look: Look): Command {
  return {
    id: "quarantine",
    name: "Plans kept aside",
    group: "Plan",
    keys: [],
    where: "page",
    disabledReason: () => null,
    run: () => look.setState({ quarantineShown: true }),
  };
}

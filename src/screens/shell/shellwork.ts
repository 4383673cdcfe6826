import { type Command, type Desk, keysOf } from "../../session/index.ts";
import { type Look, nextTheme, refuse, type Screen, themeName } from "../look.ts";
import { chooseFile, savePlan } from "../parts/files.ts";

const READY = ["demo", "small", "large"];
/** The screens in their order. */
export const SCREENS: readonly { readonly id: Screen; readonly name: string }[] = [
  { id: "day", name: "Day" },
  { id: "site", name: "Site" },
  { id: "variants", name: "Variants" },
  { id: "odds", name: "Odds" },
  { id: "rehearsal", name: "Rehearsal" },
  { id: "setup", name: "Setup" },
  { id: "paper", name: "Paper" },
];

/** The commands of the whole program: screens, files, lists. */
function shellWork(desk: Desk, look: Look): readonly Command[] {
  const page = (
    id: string,
    group: string,
    name: Command["name"],
    keys: readonly string[],
    run: Command["run"],
    disabledReason: Command["disabledReason"] = () => null,
  ): Command => ({ id, name, group, keys, where: "page", disabledReason, run });
  return [
    page("commands", "View", "List every command", ["Ctrl+K"], () => look.setState({ listShown: true })),
    {
      ...page("keys", "View", "Keys and legend", ["?"], () => look.setState({ keysShown: true })),
      where: "line",
    },
    page("open", "Plan", "Open a file", ["Ctrl+O"], () => chooseFile(desk, look)),
    page("export", "Plan", "Export for other programs", [], () => look.setState({ exporting: true })),
    page("import", "Plan", "Import a list", [], () => look.setState({ importing: [] })),
    page("save", "Plan", "Save to a file", ["Ctrl+S"], () => void savePlan(desk, look)),
    page("shelf", "Plan", "Plans in this browser", ["Ctrl+Shift+O"], () =>
      look.setState({ shelfShown: true }),
    ),
    ...READY.map((name) =>
      page(`open ${name}`, "Plan", `Open the ${name} plan`, [], () => void desk.openReady(name)),
    ),
    ...SCREENS.map(({ id, name }) =>
      page(`screen ${id}`, "View", `Show ${name}`, [], () => look.setState({ screen: id })),
    ),
    page(
      "theme",
      "View",
      () => `${themeName(nextTheme(look.getState().theme))} theme`,
      [],
      () => look.setState({ theme: nextTheme(look.getState().theme) }),
    ),
    page(
      "in setup",
      "Tasks",
      "Show in setup",
      [],
      () => look.setState({ screen: "setup", setupPage: "tasks" }),
      () => (desk.state.getState().selection.length === 0 ? "Select a task first." : null),
    ),
  ];
}

/** Keys of commands that count on the whole page; the answer ends it. Fields and dialogs keep their own keys. */
export function shellKeys(desk: Desk, look: Look): () => void {
  const stop = desk.commands.add(shellWork(desk, look));
  const down = (event: KeyboardEvent): void => {
    const target = event.target instanceof Element ? event.target : null;
    if (event.defaultPrevented || target?.closest("dialog")) return;
    const command = desk.commands.forKeys(keysOf(event));
    if (!command) return;
    const field = target?.closest("input, textarea, select");
    // In a field undo and the like are the field's own; the screen's lists and files are not.
    if (field && !["commands", "open", "save"].includes(command.id)) return;
    if (command.where === "line" && command.id !== "keys") return;
    event.preventDefault();
    const why = command.disabledReason();
    if (why === null) command.run();
    else refuse(look, why);
  };
  window.addEventListener("keydown", down);
  return () => {
    stop();
    window.removeEventListener("keydown", down);
  };
}

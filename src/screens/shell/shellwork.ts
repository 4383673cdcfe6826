import { type Command, type Session, keysOf } from "../../session/index.ts";
import { type ViewStore, nextTheme, refuse, type Screen, themeName } from "../viewstate.ts";
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
function shellWork(session: Session, view: ViewStore): readonly Command[] {
  const page = (
    id: string,
    group: string,
    name: Command["name"],
    keys: readonly string[],
    run: Command["run"],
    disabledReason: Command["disabledReason"] = () => null,
  ): Command => ({ id, name, group, keys, where: "page", disabledReason, run });
  return [
    page("commands", "View", "List every command", ["Ctrl+K"], () => view.setState({ listShown: true })),
    {
      ...page("keys", "View", "Keys and legend", ["?"], () => view.setState({ keysShown: true })),
      where: "line",
    },
    page("open", "Plan", "Open a file", ["Ctrl+O"], () => chooseFile(session, view)),
    page("export", "Plan", "Export for other programs", [], () => view.setState({ exporting: true })),
    page("import", "Plan", "Import a list", [], () => view.setState({ importing: [] })),
    page("save", "Plan", "Save to a file", ["Ctrl+S"], () => void savePlan(session, view)),
    page("shelf", "Plan", "Plans in this browser", ["Ctrl+Shift+O"], () =>
      view.setState({ shelfShown: true }),
    ),
    ...READY.map((name) =>
      page(`open ${name}`, "Plan", `Open the ${name} plan`, [], () => void session.openReady(name)),
    ),
    ...SCREENS.map(({ id, name }) =>
      page(`screen ${id}`, "View", `Show ${name}`, [], () => view.setState({ screen: id })),
    ),
    page(
      "theme",
      "View",
      () => `${themeName(nextTheme(view.getState().theme))} theme`,
      [],
      () => view.setState({ theme: nextTheme(view.getState().theme) }),
    ),
    page(
      "in setup",
      "Tasks",
      "Show in setup",
      [],
      () => view.setState({ screen: "setup", setupPage: "tasks" }),
      () => (session.state.getState().selection.length === 0 ? "Select a task first." : null),
    ),
  ];
}

/** Keys of commands that count on the whole page; the answer ends it. Fields and dialogs keep their own keys. */
export function shellKeys(session: Session, view: ViewStore): () => void {
  const stop = session.commands.add(shellWork(session, view));
  const down = (event: KeyboardEvent): void => {
    const target = event.target instanceof Element ? event.target : null;
    if (event.defaultPrevented || target?.closest("dialog")) return;
    const command = session.commands.forKeys(keysOf(event));
    if (!command) return;
    const field = target?.closest("input, textarea, select");
    // In a field undo and the like are the field's own; the screen's lists and files are not.
    if (field && !["commands", "open", "save"].includes(command.id)) return;
    if (command.where === "line" && command.id !== "keys") return;
    event.preventDefault();
    const why = command.disabledReason();
    if (why === null) command.run();
    else refuse(view, why);
  };
  window.addEventListener("keydown", down);
  return () => {
    stop();
    window.removeEventListener("keydown", down);
  };
}

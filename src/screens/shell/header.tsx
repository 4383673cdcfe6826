import { useApp, useSession, useView } from "../context.ts";
import { redoName, undoName } from "../../session/index.ts";
import { THEMES } from "../viewstate.ts";
import { canKeepToFile, chooseFile, keepToFile, openAndKeep, savePlan } from "../parts/files.ts";
import { Menu } from "../parts/menu.tsx";
import { Runner } from "./runner.tsx";
import { ScoreLine } from "./scoreline.tsx";
import { SCREENS } from "./shellwork.ts";

/** The one row at the top: the plan and its file, the screens, the score, steps back and forth, the packer, help. */
export function Header({ figuresAt }: { readonly figuresAt: (place: HTMLElement | null) => void }) {
  // A rehearsal has figures of its own, and puts them here.
  const scored = useView((state) => state.screen !== "rehearsal");
  const running = useSession((state) => state.run?.running ?? false);
  return (
    <header className="header">
      <Ident />
      <Screens />
      {scored ? <ScoreLine /> : <div className="score-place" ref={figuresAt} />}
      <div className="header-acts">
        {/* A step back would call off what the packer is at: its two keys have the room. */}
        {!running && <Steps />}
        <Runner />
        <Help />
      </div>
    </header>
  );
}

/** The plan's name, how it is saved, and what can be done with its file. */
function Ident() {
  const { session, view } = useApp();
  const title = useSession((state) => state.plan.title);
  return (
    <div className="ident">
      <Mark />
      <div className="ident-words">
        <h1 title={title}>{title}</h1>
        <Saved />
      </div>
      <Menu name="" label="Plan file">
        <button type="button" className="quiet" onClick={() => view.setState({ shelfShown: true })}>
          Plans in this browser… <kbd>Ctrl+Shift+O</kbd>
        </button>
        <button type="button" className="quiet" onClick={() => session.newPlan()}>
          New plan
        </button>
        <button type="button" className="quiet" onClick={() => chooseFile(session, view)}>
          Open file… <kbd>Ctrl+O</kbd>
        </button>
        {canKeepToFile() && (
          <button type="button" className="quiet" onClick={() => void openAndKeep(session)}>
            Open a file and keep to it…
          </button>
        )}
        <hr />
        <button type="button" className="quiet" onClick={() => void savePlan(session, view)}>
          Save to file <kbd>Ctrl+S</kbd>
        </button>
        {canKeepToFile() && (
          <button type="button" className="quiet" onClick={() => void keepToFile(session, view)}>
            Keep to a file on disk…
          </button>
        )}
        <hr />
        <button type="button" className="quiet" onClick={() => view.setState({ importing: [] })}>
          Import a list…
        </button>
        <button type="button" className="quiet" onClick={() => view.setState({ exporting: true })}>
          Export…
        </button>
        <hr />
        <button type="button" className="quiet" onClick={() => void session.openReady("demo")}>
          Open the demo plan
        </button>
        <button type="button" className="quiet" onClick={() => void session.openReady("small")}>
          Open the small plan
        </button>
        <button type="button" className="quiet" onClick={() => void session.openReady("large")}>
          Open the large plan
        </button>
        <hr />
        <button type="button" className="quiet" onClick={() => view.setState({ quarantineShown: true })}>
          Plans kept aside…
        </button>
      </Menu>
    </div>
  );
}

/** A button each where there is room, else a menu that says which one is shown; the style sheet chooses. */
function Screens() {
  const { view } = useApp();
  const screen = useView((state) => state.screen);
  const buttons = SCREENS.map(({ id, name }) => (
    <button
      key={id}
      type="button"
      aria-current={screen === id ? "page" : undefined}
      onClick={() => view.setState({ screen: id })}
    >
      {name}
    </button>
  ));
  const shown = SCREENS.find(({ id }) => id === screen)?.name ?? "";
  return (
    <nav aria-label="Screens">
      <div className="screens-row">{buttons}</div>
      <Menu className="screens-menu" name={shown} label={`Screen: ${shown}`}>
        {buttons}
      </Menu>
    </nav>
  );
}

/** Steps back and forth. Not disabled in earnest: the keyboard stays where it was pressed when there is no more to undo. */
function Steps() {
  const { session } = useApp();
  const undo = useSession(undoName);
  const redo = useSession(redoName);
  return (
    <div className="pair">
      <button
        type="button"
        aria-disabled={undo === null}
        title={undo === null ? "Nothing to undo" : `Undo: ${undo}`}
        onClick={() => undo !== null && session.undo()}
      >
        Undo
        {undo !== null && <span className="unseen">: {undo}</span>}
      </button>
      <button
        type="button"
        aria-disabled={redo === null}
        title={redo === null ? "Nothing to redo" : `Redo: ${redo}`}
        onClick={() => redo !== null && session.redo()}
      >
        Redo
        {redo !== null && <span className="unseen">: {redo}</span>}
      </button>
    </div>
  );
}

/** Keys, commands, and the theme. */
function Help() {
  const { view } = useApp();
  const theme = useView((state) => state.theme);
  return (
    <Menu className="help" name="?" label="Help and theme" atEnd>
      <button type="button" className="quiet" onClick={() => view.setState({ keysShown: true })}>
        Keys and legend
      </button>
      <button type="button" className="quiet" onClick={() => view.setState({ listShown: true })}>
        Every command <kbd>Ctrl+K</kbd>
      </button>
      <hr />
      {THEMES.map(({ id, name }) => (
        <button
          key={id}
          type="button"
          className="quiet"
          aria-pressed={theme === id}
          onClick={() => view.setState({ theme: id })}
        >
          {name}
        </button>
      ))}
    </Menu>
  );
}

/** A walker's line over three heights: out, at work, home. */
function Mark() {
  return (
    <svg className="mark" viewBox="0 0 32 24" width="26" height="20" role="img" aria-label="Lopeline">
      <path
        d="M1 21 L7 21 L11 8 L17 8 L21 3 L25 3 L30 21"
        fill="none"
        stroke="currentColor"
        strokeWidth="3"
      />
      <path d="M1 21 H31" stroke="currentColor" strokeWidth="1" />
    </svg>
  );
}

function Saved() {
  const saving = useSession((state) => state.saving);
  const words = {
    unsaved: "Not saved",
    waiting: "Saving…",
    saving: "Saving…",
    saved: "Saved here",
    failed: "Not saved",
  }[saving.status];
  return (
    <span
      className={saving.status === "failed" ? "saved failed" : "saved"}
      title={saving.message ?? undefined}
    >
      {words}
    </span>
  );
}

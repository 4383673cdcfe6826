import { useAround, useDesk, useLook } from "../context.ts";
import { redoName, undoName } from "../../session/index.ts";
import type { Screen } from "../look.ts";
import { chooseFile, savePlan } from "./files.ts";
import { Menu } from "./menu.tsx";
import { Runner } from "./runner.tsx";

const SCREENS: readonly { readonly id: Screen; readonly name: string }[] = [
  { id: "day", name: "Day" },
  { id: "site", name: "Site" },
  { id: "variants", name: "Variants" },
  { id: "odds", name: "Odds" },
  { id: "rehearsal", name: "Rehearsal" },
  { id: "setup", name: "Setup" },
  { id: "paper", name: "Paper" },
];

/** The plan's name, its file, steps back and forth, the packer, and which screen is shown. */
export function Header() {
  const { desk, look } = useAround();
  const title = useDesk((state) => state.plan.title);
  const screen = useLook((state) => state.screen);
  const theme = useLook((state) => state.theme);
  const undo = useDesk(undoName);
  const redo = useDesk(redoName);
  return (
    <header className="header">
      <p className="mark" aria-hidden="true">
        <Mark />
        <span>Lopeline</span>
      </p>
      <h1 title={title}>{title}</h1>
      <Saved />
      <Menu name="Plan" label="Plan file">
        <button type="button" className="quiet" onClick={() => look.setState({ shelfShown: true })}>
          Plans in this browser…
        </button>
        <button type="button" className="quiet" onClick={() => chooseFile(desk, look)}>
          Open file…
        </button>
        <button type="button" className="quiet" onClick={() => look.setState({ importing: [] })}>
          Import a list…
        </button>
        <button type="button" className="quiet" onClick={() => savePlan(desk)}>
          Save to file
        </button>
        <hr />
        <button type="button" className="quiet" onClick={() => void desk.openReady("demo")}>
          Open the demo plan
        </button>
        <button type="button" className="quiet" onClick={() => void desk.openReady("small")}>
          Open the small plan
        </button>
        <button type="button" className="quiet" onClick={() => void desk.openReady("large")}>
          Open the large plan
        </button>
        <hr />
        <button type="button" className="quiet" onClick={() => desk.newPlan()}>
          New plan
        </button>
        <button type="button" className="quiet" onClick={() => look.setState({ asideShown: true })}>
          Plans kept aside…
        </button>
      </Menu>
      {/* Not disabled in earnest: the keyboard stays where it was pressed when there is no more to undo. */}
      <div className="pair">
        <button
          type="button"
          aria-disabled={undo === null}
          title={undo === null ? "Nothing to undo" : `Undo: ${undo}`}
          onClick={() => undo !== null && desk.undo()}
        >
          Undo
          {undo !== null && <span className="unseen">: {undo}</span>}
        </button>
        <button
          type="button"
          aria-disabled={redo === null}
          title={redo === null ? "Nothing to redo" : `Redo: ${redo}`}
          onClick={() => redo !== null && desk.redo()}
        >
          Redo
          {redo !== null && <span className="unseen">: {redo}</span>}
        </button>
      </div>
      <Runner />
      <nav className="pair" aria-label="Screens">
        {SCREENS.map(({ id, name }) => (
          <button
            key={id}
            type="button"
            aria-current={screen === id ? "page" : undefined}
            onClick={() => look.setState({ screen: id })}
          >
            {name}
          </button>
        ))}
      </nav>
      <div className="pair">
        <button
          type="button"
          aria-label={theme === "light" ? "Dark theme" : "Light theme"}
          title={theme === "light" ? "Dark theme" : "Light theme"}
          onClick={() => look.setState({ theme: theme === "light" ? "dark" : "light" })}
        >
          {theme === "light" ? "Dark" : "Light"}
        </button>
        <button
          type="button"
          aria-label="Keys and legend"
          title="Keys and legend"
          onClick={() => look.setState({ keysShown: true })}
        >
          ?
        </button>
      </div>
    </header>
  );
}

/** A walker's line over three heights: out, at work, home. */
function Mark() {
  return (
    <svg viewBox="0 0 32 24" width="32" height="24">
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
  const saving = useDesk((state) => state.saving);
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

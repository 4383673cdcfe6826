import type { StoreApi } from "zustand/vanilla";
import { keepBenchReasons } from "./benching.ts";
import { chanceCommands, type ChanceCommands } from "./chances.ts";
import { createCore } from "./core.ts";
import { curveCommands, type CurveCommands } from "./curve.ts";
import { sessionWork } from "./sessionwork.ts";
import { editCommands, type EditCommands } from "./editing.ts";
import { exportCommands, type ExportCommands } from "./exporting.ts";
import { fileCommands, type FileCommands } from "./files.ts";
import { fromCommands, type FromCommands } from "./fromwhat.ts";
import { gestureCommands, type GestureCommands } from "./gesture.ts";
import { oddsCommands, type OddsCommands } from "./odds.ts";
import { printCommands, type PrintCommands } from "./printing.ts";
import type { SessionPorts } from "./ports.ts";
import { createRegistry, type Registry } from "./registry.ts";
import { runCommands, type RunCommands } from "./running.ts";
import { remarkCommands, type RemarkCommands } from "./remarks.ts";
import { quarantineCommands, type QuarantineCommands } from "./shelf/quarantine.ts";
import { keepToFileCommands, type KeepToFileCommands } from "./shelf/keepingto.ts";
import { keepingOf } from "./shelf/keeping.ts";
import { mergeCommands, type MergeCommands } from "./shelf/merging.ts";
import { type Opening, openingOf } from "./shelf/opening.ts";
import { type Saver, saverOf } from "./shelf/saving.ts";
import { shelfCommands, type ShelfCommands } from "./shelf/shelf.ts";
import { splitCommands, type SplitCommands } from "./splitting.ts";
import type { SessionState } from "./state.ts";
import { variantCommands, type VariantCommands } from "./variants.ts";
import { whyCommands, type WhyCommands } from "./why.ts";

/** The open plan and everything that can be done with it. */
export interface Session
  extends
    EditCommands,
    SplitCommands,
    FromCommands,
    GestureCommands,
    RunCommands,
    FileCommands,
    ExportCommands,
    QuarantineCommands,
    KeepToFileCommands,
    ShelfCommands,
    MergeCommands,
    RemarkCommands,
    Pick<Opening, "restore" | "takeOver">,
    Pick<Saver, "saveNow">,
    VariantCommands,
    WhyCommands,
    ChanceCommands,
    CurveCommands,
    OddsCommands,
    PrintCommands {
  /** True where what was done would be lost with the page: it is not saved yet, could not be, or waits to be made. */
  readonly atStake: boolean;
  /** To read and to subscribe; only commands change it. */
  readonly state: Pick<StoreApi<SessionState>, "getState" | "getInitialState" | "subscribe">;
  /** Selects tasks; the same selection stays the same array. */
  select(tasks: readonly string[]): void;
  dismissNotice(id: string): void;
  /** Says something that the planner should know to be wrong; what is said already is not said twice. */
  tell(text: string): void;
  /** Every command there is, by the same name for menus, keys and the list; screens add their own. */
  readonly commands: Registry;
}

/** A session with a blank plan. Call `restore` to bring back what was open. */
export function createSession(ports: SessionPorts): Session {
  const core = createCore(ports);
  const { state } = core;
  const edits = editCommands(core);
  const variants = variantCommands(core, edits);
  const keeping = keepingOf(core);
  const saver = saverOf(core, keeping);
  const opening = openingOf(core, saver, keeping);
  const files = fileCommands(core, opening.openSame);
  const commands = createRegistry();
  const session: Session = {
    state,
    commands,
    ...edits,
    ...splitCommands(core, edits),
    ...fromCommands(core),
    ...gestureCommands(core, edits),
    ...runCommands(core, edits),
    ...exportCommands(core),
    ...files,
    ...quarantineCommands(core, files),
    ...keepToFileCommands(core, files),
    ...shelfCommands(core, { edits, saver, opening, keeping }),
    ...mergeCommands(core, edits, keeping),
    ...remarkCommands(core, edits),
    restore: opening.restore,
    takeOver: opening.takeOver,
    saveNow: saver.saveNow,
    get atStake() {
      const { status } = state.getState().saving;
      return (
        (core.heavy?.waits ?? false) || status === "waiting" || status === "saving" || status === "failed"
      );
    },
    ...variants,
    ...whyCommands(core, variants),
    ...chanceCommands(core),
    ...curveCommands(core, edits, variants),
    ...oddsCommands(core, variants),
    ...printCommands(core),
    select(tasks) {
      const { selection } = state.getState();
      const same = selection.length === tasks.length && selection.every((task, i) => task === tasks[i]);
      if (!same) state.setState({ selection: [...tasks] });
    },
    tell(text) {
      if (!state.getState().notices.some((one) => one.text === text)) core.notice("problem", text);
    },
    dismissNotice(id) {
      state.setState((now) => ({ notices: now.notices.filter((notice) => notice.id !== id) }));
    },
  };
  commands.add(sessionWork(session));
  keepBenchReasons(core);
  return session;
}

import type { Core } from "../core.ts";
import { type FileCommands, planText } from "../files.ts";
import { digestOf, type FileHandle, type WriteEnd, writeInto } from "./filehandle.ts";

/** How saving into the plan's own file ended; none: it is kept to no file. */
type SaveEnd =
  | { readonly end: WriteEnd; readonly name: string }
  | { readonly end: "none" }
  | { readonly end: "failed"; readonly name: string; readonly message: string };

/** Commands on the file that the open plan is kept to, where the browser can write into files. They never reject. */
export interface KeepToFileCommands {
  /** From now on the open plan is saved into this file; nothing is written yet. */
  keepTo(handle: FileHandle): Promise<void>;
  /** Opens the plan in this file, which is saved into it from then on. True when it was a plan. */
  openFrom(handle: FileHandle): Promise<boolean>;
  /** Saves the open plan into its file; what somebody else has written there since is overwritten with `over` only. */
  saveToItsFile(over?: boolean): Promise<SaveEnd>;
}

export function keepToFileCommands(core: Core, files: FileCommands): KeepToFileCommands {
  const { state, ports } = core;
  /** In this window too, so that a browser that keeps no handles can save again while it is open. */
  const known = new Map<string, { readonly handle: FileHandle; readonly digest: string | null }>();
  const keep = async (slot: string, handle: FileHandle, digest: string | null): Promise<void> => {
    known.set(slot, { handle, digest });
    // Where it cannot be kept it is chosen again next time.
    await ports.handles?.write(slot, { handle, digest }).catch(() => undefined);
  };

  return {
    keepTo: (handle) => keep(state.getState().slot, handle, null),
    async openFrom(handle) {
      const file = await handle.getFile();
      const text = await file.text();
      const size = new TextEncoder().encode(text).length;
      const opened = await files.openFile({ name: handle.name, size, text: () => Promise.resolve(text) });
      if (opened) await keep(state.getState().slot, handle, digestOf(text));
      return opened;
    },
    async saveToItsFile(over = false) {
      const { slot, plan } = state.getState();
      const kept = known.get(slot) ?? (await ports.handles?.read(slot).catch(() => null)) ?? null;
      if (!kept) return { end: "none" };
      const { name } = kept.handle;
      const text = planText(plan);
      try {
        const end = await writeInto(kept, text, over);
        if (end === "written") await keep(slot, kept.handle, digestOf(text));
        return { end, name };
      } catch (error) {
        return { end: "failed", name, message: error instanceof Error ? error.message : "unknown" };
      }
    },
  };
}

import type { Session } from "../../session/index.ts";
import type { ViewStore } from "../viewstate.ts";

/** Lets the planner choose a plan file and opens it, or lists, which go to their window; what is refused stands in the session's refusal. */
export function chooseFile(session: Session, view: ViewStore): void {
  const input = document.createElement("input");
  input.type = "file";
  input.multiple = true;
  input.accept = ".json,application/json,.csv,.tsv,.txt,.xlsx";
  input.addEventListener("change", () => void openFiles(session, view, [...(input.files ?? [])]));
  input.click();
}

/** A plan is opened as one; everything else is a list until it is shown to be none. */
async function openFiles(session: Session, view: ViewStore, files: readonly File[]): Promise<void> {
  const [first] = files;
  if (!first) return;
  if (files.length === 1 && (await isPlan(first))) await session.openFile(first);
  else view.setState({ importing: files });
}

async function isPlan(file: File): Promise<boolean> {
  if (/\.json$/i.test(file.name)) return true;
  return (await file.slice(0, 64).text()).trimStart().startsWith("{");
}

/** Saves bytes or text as a file in the browser's way. */
export function download(name: string, parts: BlobPart[], type: string): void {
  const url = URL.createObjectURL(new Blob(parts, { type }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The download has taken its own hold of the bytes by the next turn.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** Where the browser lets a page write into a file that was chosen (File System Access). */
declare global {
  interface Window {
    showOpenFilePicker?: (how: PickerHow) => Promise<readonly FileSystemFileHandle[]>;
    showSaveFilePicker?: (how: PickerHow) => Promise<FileSystemFileHandle>;
  }
}

interface PickerHow {
  readonly suggestedName?: string;
  readonly types: readonly {
    readonly description: string;
    readonly accept: Readonly<Record<string, readonly string[]>>;
  }[];
}

const TYPES: PickerHow["types"] = [{ description: "Plan", accept: { "application/json": [".json"] } }];

/** True where a plan can be kept to a file of the machine. */
export function canKeepToFile(): boolean {
  return window.showSaveFilePicker !== undefined && window.showOpenFilePicker !== undefined;
}

/** Lets the planner choose the file that the open plan is saved into from now on, and saves it. */
export async function keepToFile(session: Session, view: ViewStore): Promise<void> {
  const handle = await chosen(() =>
    window.showSaveFilePicker?.({ suggestedName: session.fileName(), types: TYPES }),
  );
  if (!handle) return;
  await session.keepTo(handle);
  await savePlan(session, view);
}

/** Lets the planner choose a plan file, opens it, and saves into it from now on. */
export async function openAndKeep(session: Session): Promise<void> {
  const [handle] = (await chosen(() => window.showOpenFilePicker?.({ types: TYPES }))) ?? [];
  if (handle) await session.openFrom(handle);
}

/** What was chosen; null where nothing was, or the browser did not ask. */
async function chosen<Value>(open: () => Promise<Value> | undefined): Promise<Value | null> {
  try {
    return (await open()) ?? null;
  } catch {
    return null;
  }
}

/** Saves the open plan into the file that it is kept to; one that is kept to none, or whose file cannot be written, as a download. */
export async function savePlan(session: Session, view: ViewStore, over = false): Promise<void> {
  session.noteHand();
  const saved = await session.saveToItsFile(over);
  if (saved.end === "changed") {
    view.setState({ changedFile: saved.name });
    return;
  }
  // What comes back is merged with what it was. Where the store cannot be used, that is said already.
  session.keepSent().catch(() => undefined);
  if (saved.end === "written") {
    view.setState({ spoken: `Saved into ${saved.name}.`, hint: `Saved into ${saved.name}.` });
    return;
  }
  if (saved.end === "refused")
    session.tell(`The browser may not write ${saved.name}: it is saved as a download.`);
  if (saved.end === "failed")
    session.tell(`${saved.name} could not be written (${saved.message}): it is saved as a download.`);
  savePlanAsDownload(session);
}

export function savePlanAsDownload(session: Session): void {
  download(session.fileName(), [session.saveText()], "application/json");
}

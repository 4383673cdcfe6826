import type { Desk } from "../../session/index.ts";
import type { Look } from "../look.ts";

/** Lets the planner choose a plan file and opens it, or lists, which go to their window; what is refused stands in the desk's refusal. */
export function chooseFile(desk: Desk, look: Look): void {
  const input = document.createElement("input");
  input.type = "file";
  input.multiple = true;
  input.accept = ".json,application/json,.csv,.tsv,.txt,.xlsx";
  input.addEventListener("change", () => void openFiles(desk, look, [...(input.files ?? [])]));
  input.click();
}

/** A plan is opened as one; everything else is a list until it is shown to be none. */
export async function openFiles(desk: Desk, look: Look, files: readonly File[]): Promise<void> {
  const [first] = files;
  if (!first) return;
  if (files.length === 1 && (await isPlan(first))) await desk.openFile(first);
  else look.setState({ importing: files });
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

/** Saves the open plan as a file. */
export function savePlan(desk: Desk): void {
  desk.noteHand();
  download(desk.fileName(), [desk.saveText()], "application/json");
  // What comes back is merged with what it was. Where the store cannot be used, that is said already.
  desk.keepSent().catch(() => undefined);
}

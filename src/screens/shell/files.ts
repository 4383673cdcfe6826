import type { Desk } from "../../session/index.ts";

/** Lets the planner choose a plan file and opens it; what is refused stands in the desk's refusal. */
export function chooseFile(desk: Desk): void {
  const input = document.createElement("input");
  input.type = "file";
  input.accept = ".json,application/json";
  input.addEventListener("change", () => {
    const file = input.files?.[0];
    if (file) void desk.openFile(file);
  });
  input.click();
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
  download(desk.fileName(), [desk.saveText()], "application/json");
}

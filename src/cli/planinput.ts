import { readFile, stat } from "node:fs/promises";
import { LARGEST_TEXT, parseText, type Plan } from "../plan/index.ts";
import { Refusal, refuse } from "./refusal.ts";

/** The plan in the file at `path`. Throws a Refusal that says what is wrong with the file, every fault by its path. */
export async function readPlan(path: string): Promise<Plan> {
  return planIn(path, await readText(path));
}

/** The plan in a text that was read from `path`. */
export function planIn(path: string, text: string): Plan {
  const read = parseText(text);
  if (read.ok) return read.value;
  throw new Refusal(
    read.error.map((fault) =>
      fault.path === "" ? `${path}: ${fault.message}` : `${path}: ${fault.path}: ${fault.message}`,
    ),
  );
}

/** The text of the file at `path`. Throws a Refusal where it is none. */
export async function readText(path: string): Promise<string> {
  try {
    const about = await stat(path);
    if (about.isDirectory()) refuse(`${path} is a folder, not a plan file`);
    if (!about.isFile()) refuse(`${path} is not a plain file`);
    if (about.size > LARGEST_TEXT) {
      refuse(
        `${path} is too large: ${Math.ceil(about.size / 1024 / 1024)} MB, at most ${LARGEST_TEXT / 1024 / 1024} MB are read`,
      );
    }
    return new TextDecoder("utf-8", { fatal: true }).decode(await readFile(path));
  } catch (error) {
    if (error instanceof Refusal) throw error;
    if (error instanceof TypeError) return refuse(`${path} is not UTF-8 text`);
    return refuse(`${path}: ${fileTrouble(error)}`);
  }
}

/** A file system error in words. */
export function fileTrouble(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  return TROUBLES[code] ?? (error instanceof Error ? error.message : "cannot be used");
}

const TROUBLES: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  ENOTDIR: "a part of the path is not a folder",
  EACCES: "not allowed",
  EPERM: "not allowed",
  EISDIR: "is a folder",
  ENOSPC: "no space is left",
  EROFS: "the disk is read-only",
  ENAMETOOLONG: "the name is too long",
};

import { rename, rm, stat, writeFile } from "node:fs/promises";
import { dirname } from "node:path";
import { fileTrouble } from "./planinput.ts";
import { refuse } from "./refusal.ts";

/**
 * Refuses, before any work is done, an output that is missing, a folder, in a folder that is not there, or the input file itself,
 * which no verb ever changes.
 */
export async function checkOutput(out: string | undefined, input: string, example: string): Promise<string> {
  if (out === undefined || out === "") return refuse(`say where to write: --out ${example}`);
  const [target, source, folder] = await Promise.all([about(out), about(input), about(dirname(out))]);
  if (target?.isDirectory()) return refuse(`${out} is a folder; give a file name`);
  if (folder?.isDirectory() !== true)
    return refuse(`${out} cannot be written: there is no folder ${dirname(out)}`);
  if (target && source && target.dev === source.dev && target.ino === source.ino) {
    return refuse(`${out} is the input file, which stays as it is; give another name`);
  }
  return out;
}

/** Writes a whole file or none of it: a plain file is replaced only once its successor is complete. */
export async function writeOutput(out: string, content: string | Uint8Array): Promise<void> {
  try {
    const target = await about(out);
    if (target && !target.isFile()) return await writeFile(out, content);
    const part = `${out}.${process.pid}.part`;
    try {
      await writeFile(part, content);
      await rename(part, out);
    } catch (error) {
      await rm(part, { force: true });
      throw error;
    }
  } catch (error) {
    refuse(`${out} cannot be written: ${fileTrouble(error)}`);
  }
}

async function about(path: string) {
  try {
    return await stat(path);
  } catch {
    return null;
  }
}

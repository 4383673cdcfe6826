import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";

const { resolve } = createRequire(import.meta.url);

/** The faces of paper, from the installed packages. */
export async function facesOnDisk(file: string): Promise<Uint8Array> {
  return readFile(resolve(file));
}

import { brotliCompressSync, gzipSync } from "node:zlib";

/** What a browser fetches before the first screen can be drawn: the page, and what its scripts and sheets stand on. */

export interface LoadedFile {
  readonly file: string;
  readonly bytes: number;
  readonly gzip: number;
  readonly brotli: number;
}

/** The files of the first load by the page's text; `read` gives a file of the build by its name. */
export function firstLoad(read: (file: string) => string): readonly LoadedFile[] {
  const seen = new Map<string, LoadedFile>();
  const add = (file: string): void => {
    if (seen.has(file)) return;
    const text = read(file);
    const gzip = gzipSync(text, { level: 9 }).length;
    seen.set(file, { file, bytes: Buffer.byteLength(text), gzip, brotli: brotliCompressSync(text).length });
    if (!file.endsWith(".js")) return;
    // Static imports only: those that are fetched on demand stand in a call.
    for (const [, name] of text.matchAll(/(?:from|import)\s*["']\.\/([^"']+)["']/g)) add(`assets/${name}`);
  };
  add("index.html");
  for (const [, file] of read("index.html").matchAll(/(?:src|href)="\.\/(assets\/[^"]+)"/g)) add(file ?? "");
  return [...seen.values()];
}

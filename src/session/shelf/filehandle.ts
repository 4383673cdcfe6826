import { type DBSchema, openDB } from "idb";
import { sha256 } from "../../kernel/index.ts";

/** A file of the machine that the planner chose and the browser may write into again (File System Access, W3C community group). */
export interface FileHandle {
  readonly name: string;
  getFile(): Promise<{ text(): Promise<string> }>;
  createWritable(): Promise<{ write(text: string): Promise<void>; close(): Promise<void> }>;
  /** Missing where nothing has to be asked. */
  queryPermission?(how: { readonly mode: "readwrite" }): Promise<PermissionState>;
  requestPermission?(how: { readonly mode: "readwrite" }): Promise<PermissionState>;
}

/** The file that a plan of the shelf is kept to, and what this browser last read or wrote there. */
export interface KeptFile {
  readonly handle: FileHandle;
  /** SHA-256 of the text; null where the file was chosen only. */
  readonly digest: string | null;
}

/** Where the handles lie, by slot of the shelf. */
export interface FileHandles {
  read(slot: string): Promise<KeptFile | null>;
  write(slot: string, kept: KeptFile): Promise<void>;
}

interface Shelves extends DBSchema {
  files: { key: string; value: KeptFile };
}

/** The handles in a database of their own: they are no part of what is on the shelf. */
export function browserHandles(): FileHandles {
  const database = () =>
    openDB<Shelves>("lopeline-files", 1, { upgrade: (db) => void db.createObjectStore("files") });
  const within = async <Value>(work: (db: Awaited<ReturnType<typeof database>>) => Promise<Value>) => {
    const db = await database();
    try {
      return await work(db);
    } finally {
      db.close();
    }
  };
  return {
    read: (slot) => within(async (db) => (await db.get("files", slot)) ?? null),
    write: (slot, kept) => within(async (db) => void (await db.put("files", kept, slot))),
  };
}

/** changed: somebody else has written the file since, and nothing was written. refused: the browser may not write it. */
export type WriteEnd = "written" | "changed" | "refused";

/** Writes `text` into a file, unless it holds something else than what was last read or written there; `over` writes in any case. */
export async function writeInto(
  { handle, digest }: KeptFile,
  text: string,
  over: boolean,
): Promise<WriteEnd> {
  const how = { mode: "readwrite" } as const;
  const permission = async (): Promise<PermissionState> => {
    const known = (await handle.queryPermission?.(how)) ?? "granted";
    return known === "prompt" ? ((await handle.requestPermission?.(how)) ?? known) : known;
  };
  if ((await permission()) !== "granted") return "refused";
  const there = await (await handle.getFile()).text();
  if (!over && there !== "" && there !== text && digestOf(there) !== digest) return "changed";
  const writer = await handle.createWritable();
  await writer.write(text);
  await writer.close();
  return "written";
}

export function digestOf(text: string): string {
  return sha256(new TextEncoder().encode(text));
}

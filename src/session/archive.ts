import { type DBSchema, type IDBPDatabase, openDB } from "idb";

/** The document as it lies in the browser's store. */
export interface StoredPlan {
  /** The plan as a file's text. */
  readonly text: string;
  /** The steps that can be taken back and done again, as `History`; missing in older records. */
  readonly history?: unknown;
  /** In records from before format 2: what variants give up of the plan, which the text had no room for. */
  readonly givenUp?: unknown;
  readonly savedAtMs: number;
  /** Which window wrote it. */
  readonly writer: string;
}

/** A record that could not be used, kept as it was found. */
export interface AsideRecord {
  readonly found: unknown;
  readonly reason: string;
  readonly atMs: number;
}

/** Such a record with its place in the store. */
export interface KeptRecord extends AsideRecord {
  readonly key: number;
}

/** The saving port. Every promise rejects with an Error when the store cannot be used. */
export interface Archive {
  /** The open document's record as found, whatever it is; undefined when there is none. */
  readOpen(): Promise<unknown>;
  /** The last record that was known to be readable; undefined when there is none. */
  readGood(): Promise<unknown>;
  /**
   * Puts the open document's record, all or nothing. A record written by neither this writer nor
   * `expected` is set aside first, in the same step; the answer says whether that happened.
   */
  writeOpen(record: StoredPlan, expected: string | null): Promise<"written" | "other set aside">;
  /** Puts the record that was just read successfully. */
  writeGood(record: StoredPlan): Promise<void>;
  /** Moves the open document's record to those set aside, in one step. */
  setOpenAside(reason: string, atMs: number): Promise<void>;
  /** The records set aside, oldest first. */
  readAside(): Promise<readonly KeptRecord[]>;
  /** Puts a record among those set aside, at its own place. */
  putAside(record: KeptRecord): Promise<void>;
  /** Takes a record out of those set aside; nothing happens when it is not there. */
  deleteAside(key: number): Promise<void>;
}

interface Shelves extends DBSchema {
  documents: { key: string; value: unknown };
  aside: { key: number; value: AsideRecord };
}

const OPEN = "open";
const GOOD = "good";

/** The archive in the browser's IndexedDB. The database is opened at the first use. */
export function browserArchive(name = "lopeline"): Archive {
  let opened: Promise<IDBPDatabase<Shelves>> | null = null;
  const database = (): Promise<IDBPDatabase<Shelves>> => {
    opened ??= openDB<Shelves>(name, 1, {
      upgrade(fresh) {
        fresh.createObjectStore("documents");
        fresh.createObjectStore("aside", { autoIncrement: true });
      },
      // Another window wants a newer form: let it, and open again at the next use.
      blocking() {
        void opened?.then((db) => db.close());
        opened = null;
      },
      terminated() {
        opened = null;
      },
    }).catch((error: unknown) => {
      opened = null;
      throw error;
    });
    return opened;
  };

  return {
    async readOpen() {
      return (await database()).get("documents", OPEN);
    },
    async readGood() {
      return (await database()).get("documents", GOOD);
    },
    async writeOpen(record, expected) {
      const step = (await database()).transaction(["documents", "aside"], "readwrite");
      const documents = step.objectStore("documents");
      const found = await documents.get(OPEN);
      const known = isStoredPlan(found) && (found.writer === record.writer || found.writer === expected);
      const stranger = found !== undefined && !known;
      if (stranger) {
        const reason = "another window had saved its plan in the meantime";
        await step.objectStore("aside").add({ found, reason, atMs: record.savedAtMs });
      }
      await documents.put(record, OPEN);
      await step.done;
      return stranger ? "other set aside" : "written";
    },
    async writeGood(record) {
      await (await database()).put("documents", record, GOOD);
    },
    async setOpenAside(reason, atMs) {
      const step = (await database()).transaction(["documents", "aside"], "readwrite");
      const found = await step.objectStore("documents").get(OPEN);
      await step.objectStore("aside").add({ found, reason, atMs });
      await step.objectStore("documents").delete(OPEN);
      await step.done;
    },
    async readAside() {
      const shelf = (await database()).transaction("aside").store;
      const [keys, records] = await Promise.all([shelf.getAllKeys(), shelf.getAll()]);
      return records.map((record, k) => ({ ...record, key: keys[k]! }));
    },
    async putAside({ key, ...record }) {
      await (await database()).put("aside", record, key);
    },
    async deleteAside(key) {
      await (await database()).delete("aside", key);
    },
  };
}

/** True when a found record has the form this program writes; its text may still be no plan. */
export function isStoredPlan(found: unknown): found is StoredPlan {
  if (typeof found !== "object" || found === null) return false;
  const record = found as Partial<Record<keyof StoredPlan, unknown>>;
  return (
    typeof record.text === "string" &&
    typeof record.savedAtMs === "number" &&
    typeof record.writer === "string"
  );
}

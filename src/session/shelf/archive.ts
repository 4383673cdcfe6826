import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from "idb";
import {
  type Archive,
  type Quarantined,
  type Card,
  isStoredPlan,
  type KeptState,
  type RehearsalClock,
  type StateMark,
} from "./records.ts";
import { beyondRoom } from "./room.ts";
import { titleIn } from "./titlein.ts";

interface Shelves extends DBSchema {
  /** Which slot was open last; in version 1 the only plan, and the last one known to be readable. */
  documents: { key: string; value: unknown };
  aside: { key: number; value: Quarantined };
  /** Records of plans by slot. */
  plans: { key: string; value: unknown };
  cards: { key: string; value: Card };
  marks: { key: number; value: StateMark; indexes: { slot: string } };
  /** The plans of states, by the keys of their marks. */
  texts: { key: number; value: unknown };
  rehearsals: { key: string; value: unknown };
}

type Upgrade = IDBPTransaction<Shelves, StoreNames<Shelves>[], "versionchange">;

const VERSION = 2;
const LAST = "last";
const UNDER_WAY = "under way";
const CLOCK = "clock";
/** Where the plan of version 1 comes to lie. */
const FIRST_SLOT = "first";

/** The archive in the browser's IndexedDB. The database is opened at the first use. */
export function browserArchive(name = "lopeline"): Archive {
  const database = opener(name);
  return {
    ...plansIn(database),
    ...statesIn(database),
    ...quarantineIn(database),
    async lastOpen() {
      const found = await (await database()).get("documents", LAST);
      return typeof found === "string" ? found : null;
    },
    async setLastOpen(slot) {
      await (await database()).put("documents", slot, LAST);
    },
    async readRehearsal() {
      const shelf = (await database()).transaction("rehearsals").store;
      const [text, clock] = await Promise.all([shelf.get(UNDER_WAY), shelf.get(CLOCK)]);
      return typeof text === "string" ? { text, clock: isClock(clock) ? clock : null } : null;
    },
    async writeRehearsal(text) {
      const step = (await database()).transaction("rehearsals", "readwrite");
      await step.store.delete(CLOCK);
      if (text === null) await step.store.delete(UNDER_WAY);
      else await step.store.put(text, UNDER_WAY);
      await step.done;
    },
    async writeClock(clock) {
      await (await database()).put("rehearsals", clock, CLOCK);
    },
  };
}

function isClock(found: unknown): found is RehearsalClock {
  if (typeof found !== "object" || found === null) return false;
  const { calls, nowS } = found as Partial<Record<keyof RehearsalClock, unknown>>;
  return typeof calls === "number" && typeof nowS === "number";
}

type Database = () => Promise<IDBPDatabase<Shelves>>;

function opener(name: string): Database {
  let opened: Promise<IDBPDatabase<Shelves>> | null = null;
  return () => {
    opened ??= new Promise<IDBPDatabase<Shelves>>((resolve, reject) => {
      openDB<Shelves>(name, VERSION, {
        async upgrade(db, from, _to, step) {
          if (from < 1) {
            db.createObjectStore("documents");
            db.createObjectStore("aside", { autoIncrement: true });
          }
          if (from < 2) {
            for (const one of ["plans", "cards", "texts", "rehearsals"] as const) db.createObjectStore(one);
            db.createObjectStore("marks", { autoIncrement: true }).createIndex("slot", "slot");
            await shelved(step);
          }
        },
        blocked: () =>
          reject(new Error("another window holds it in an older form: close all other windows of this page")),
        // Another window wants a newer form: let it, and open again at the next use.
        blocking() {
          void opened?.then((db) => db.close());
          opened = null;
        },
        terminated() {
          opened = null;
        },
      }).then(resolve, reject);
    }).catch((error: unknown) => {
      opened = null;
      throw error;
    });
    return opened;
  };
}

/** Version 1 held one plan, and the last one known to be readable: they become a slot and a state of it. */
async function shelved(step: Upgrade): Promise<void> {
  const documents = step.objectStore("documents");
  const [open, good] = [await documents.get("open"), await documents.get("good")];
  const document = open ?? good;
  if (document === undefined) return;
  const text = isStoredPlan(document) ? document.text : "";
  const savedAtMs = isStoredPlan(document) ? document.savedAtMs : 0;
  await step.objectStore("plans").put(document, FIRST_SLOT);
  await step.objectStore("cards").put(
    {
      slot: FIRST_SLOT,
      title: titleIn(text) ?? "Plan without a title",
      savedAtMs,
      bytes: bytesOf(text),
      tasks: 0,
      placed: 0,
      picture: null,
      binnedAtMs: null,
    },
    FIRST_SLOT,
  );
  if (isStoredPlan(good)) {
    const mark = { slot: FIRST_SLOT, kind: "opened", name: "", note: "", author: "" } as const;
    const key = await step
      .objectStore("marks")
      .add({ ...mark, atMs: good.savedAtMs, bytes: bytesOf(good.text) });
    await step.objectStore("texts").put(good.text, key);
  }
  await documents.clear();
  await documents.put(FIRST_SLOT, LAST);
}

/** The size of a text in a file, bytes. */
export function bytesOf(text: string): number {
  return new TextEncoder().encode(text).length;
}

function plansIn(
  database: Database,
): Pick<Archive, "cards" | "readPlan" | "writePlan" | "writeCard" | "dropPlan" | "quarantinePlan"> {
  return {
    cards: async () => (await database()).getAll("cards"),
    readPlan: async (slot) => (await database()).get("plans", slot),
    async writePlan(card, record, expected) {
      // On the disk, and not only on its way there: what was saved outlasts the power too.
      const step = (await database()).transaction(["plans", "cards", "aside"], "readwrite", {
        durability: "strict",
      });
      if (expected === record.writer) {
        const done = Promise.all([
          step.objectStore("plans").put(record, card.slot),
          step.objectStore("cards").put(card, card.slot),
          step.done,
        ]);
        // Nothing to wait for in the page, which may be busy.
        step.commit();
        await done;
        return "written";
      }
      const found = await step.objectStore("plans").get(card.slot);
      const known = isStoredPlan(found) && (found.writer === record.writer || found.writer === expected);
      const stranger = found !== undefined && !known;
      if (stranger) {
        const reason = "another window had saved its plan in the meantime";
        await step.objectStore("aside").add({ found, reason, atMs: record.savedAtMs });
      }
      await step.objectStore("plans").put(record, card.slot);
      await step.objectStore("cards").put(card, card.slot);
      await step.done;
      return stranger ? "other set aside" : "written";
    },
    async writeCard(card) {
      await (await database()).put("cards", card, card.slot);
    },
    async dropPlan(slot) {
      const step = (await database()).transaction(["plans", "cards", "marks", "texts"], "readwrite");
      await step.objectStore("plans").delete(slot);
      await step.objectStore("cards").delete(slot);
      for (const key of await step.objectStore("marks").index("slot").getAllKeys(slot)) {
        await step.objectStore("marks").delete(key);
        await step.objectStore("texts").delete(key);
      }
      await step.done;
    },
    async quarantinePlan(slot, reason, atMs) {
      const step = (await database()).transaction(["plans", "cards", "aside"], "readwrite");
      const found = await step.objectStore("plans").get(slot);
      await step.objectStore("aside").add({ found, reason, atMs });
      await step.objectStore("plans").delete(slot);
      await step.objectStore("cards").delete(slot);
      await step.done;
    },
  };
}

function statesIn(database: Database): Pick<Archive, "states" | "readState" | "addState"> {
  const kept = async (
    marks: { getAllKeys(slot: string): Promise<number[]>; getAll(slot: string): Promise<StateMark[]> },
    slot: string,
  ): Promise<KeptState[]> => {
    const keys = await marks.getAllKeys(slot);
    return (await marks.getAll(slot)).map((mark, k) => ({ ...mark, key: keys[k]! }));
  };
  return {
    async states(slot) {
      const marks = (await database()).transaction("marks").store.index("slot");
      return (await kept(marks, slot)).toSorted((a, b) => b.atMs - a.atMs || b.key - a.key);
    },
    readState: async (key) => (await database()).get("texts", key),
    async addState(state, text) {
      const step = (await database()).transaction(["marks", "texts"], "readwrite");
      const [marks, texts] = [step.objectStore("marks"), step.objectStore("texts")];
      await texts.put(text, await marks.add(state));
      for (const { key } of beyondRoom(await kept(marks.index("slot"), state.slot))) {
        await marks.delete(key);
        await texts.delete(key);
      }
      await step.done;
    },
  };
}

function quarantineIn(
  database: Database,
): Pick<Archive, "readQuarantine" | "putQuarantined" | "deleteQuarantined"> {
  return {
    async readQuarantine() {
      const shelf = (await database()).transaction("aside").store;
      const [keys, records] = await Promise.all([shelf.getAllKeys(), shelf.getAll()]);
      return records.map((record, k) => ({ ...record, key: keys[k]! }));
    },
    async putQuarantined({ key, ...record }) {
      await (await database()).put("aside", record, key);
    },
    async deleteQuarantined(key) {
      await (await database()).delete("aside", key);
    },
  };
}

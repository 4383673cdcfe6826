import type { Core } from "../core.ts";
import { type FileCommands, fileNameOf, planText } from "../files.ts";
import { bytesOf } from "./archive.ts";
import { planIn } from "./olderrecord.ts";
import { isStoredPlan, type KeptRecord } from "./records.ts";
import { titleIn } from "./titlein.ts";

/** A plan that was kept aside, as a list shows it. */
export interface KeptPlan extends KeptRecord {
  /** What the plan calls itself, even where it cannot be opened; null where it says nothing. */
  readonly title: string | null;
  /** What a file of it holds: the plan's text, or whatever was found. */
  readonly text: string;
  /** Size of the text, bytes. */
  readonly bytes: number;
  /** Why it cannot be opened; null when it can. */
  readonly fault: string | null;
  /** The name its file should have. */
  readonly fileName: string;
}

/** Commands on what was kept aside in the browser's store. Promises reject with an Error when it cannot be used. */
export interface AsideCommands {
  /** Everything kept aside, the newest first. */
  keptAside(): Promise<readonly KeptPlan[]>;
  /** Opens one as a plan of its own; it stays kept. True when it was a plan. */
  openAside(kept: KeptPlan): boolean;
  /** Takes one out of the store; `bringBack` puts the same one in again. */
  deleteAside(kept: KeptPlan): Promise<void>;
  bringBackAside(kept: KeptPlan): Promise<void>;
}

export function asideCommands({ ports }: Core, files: FileCommands): AsideCommands {
  return {
    async keptAside() {
      const records = await ports.archive.readAside();
      return records.map(keptPlan).toSorted((a, b) => b.atMs - a.atMs || b.key - a.key);
    },
    openAside({ found, text, fileName }) {
      const read = isStoredPlan(found) ? planIn(found) : null;
      return files.open(read?.ok ? planText(read.value) : text, fileName);
    },
    deleteAside: ({ key }) => ports.archive.deleteAside(key),
    bringBackAside: ({ key, found, reason, atMs }) => ports.archive.putAside({ key, found, reason, atMs }),
  };
}

/** What a record is, whatever it is. */
function keptPlan(record: KeptRecord): KeptPlan {
  const { found, atMs } = record;
  const text = isStoredPlan(found) ? found.text : (JSON.stringify(found, null, 2) ?? "");
  const read = isStoredPlan(found) ? planIn(found) : null;
  const title = read?.ok ? read.value.title : titleIn(text);
  const fault = read === null ? "it is no record of this program" : read.ok ? null : firstOf(read.error);
  return {
    ...record,
    title,
    text,
    bytes: bytesOf(text),
    fault,
    fileName: fileNameOf(title ?? `kept ${new Date(atMs).toISOString().slice(0, 16)}`),
  };
}

function firstOf(faults: readonly { readonly path: string; readonly message: string }[]): string {
  const [first] = faults;
  const where = first && first.path !== "" ? `${first.path} ` : "";
  return `${where}${first?.message ?? "it has faults"}`;
}

import type { Core } from "../core.ts";
import { type FileCommands, fileNameOf, planText } from "../files.ts";
import { bytesOf } from "./archive.ts";
import { planIn } from "./olderrecord.ts";
import { isStoredPlan, type QuarantineRecord } from "./records.ts";
import { titleIn } from "./titlein.ts";

/** A plan that was kept aside, as a list shows it. */
export interface QuarantinedPlan extends QuarantineRecord {
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
export interface QuarantineCommands {
  /** Everything kept aside, the newest first. */
  listQuarantine(): Promise<readonly QuarantinedPlan[]>;
  /** Opens one as a plan of its own; it stays kept. True when it was a plan. */
  openQuarantined(kept: QuarantinedPlan): boolean;
  /** Takes one out of the store; `bringBack` puts the same one in again. */
  deleteQuarantined(kept: QuarantinedPlan): Promise<void>;
  restoreQuarantined(kept: QuarantinedPlan): Promise<void>;
}

export function quarantineCommands({ ports }: Core, files: FileCommands): QuarantineCommands {
  return {
    async listQuarantine() {
      const records = await ports.archive.readQuarantine();
      return records.map(keptPlan).toSorted((a, b) => b.atMs - a.atMs || b.key - a.key);
    },
    openQuarantined({ found, text, fileName }) {
      const read = isStoredPlan(found) ? planIn(found) : null;
      return files.open(read?.ok ? planText(read.value) : text, fileName);
    },
    deleteQuarantined: ({ key }) => ports.archive.deleteQuarantined(key),
    restoreQuarantined: ({ key, found, reason, atMs }) =>
      ports.archive.putQuarantined({ key, found, reason, atMs }),
  };
}

/** What a record is, whatever it is. */
function keptPlan(record: QuarantineRecord): QuarantinedPlan {
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

import { isStoredPlan, type KeptRecord } from "./archive.ts";
import type { Core } from "./core.ts";
import { fileCommands, fileNameOf, planText } from "./files.ts";
import { planIn } from "./olderrecord.ts";

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
  /** Opens one as a step of the history; it stays kept. True when it was a plan. */
  openAside(kept: KeptPlan): boolean;
  /** Takes one out of the store; `bringBack` puts the same one in again. */
  deleteAside(kept: KeptPlan): Promise<void>;
  bringBackAside(kept: KeptPlan): Promise<void>;
}

export function asideCommands(core: Core): AsideCommands {
  const { ports } = core;
  return {
    async keptAside() {
      const records = await ports.archive.readAside();
      return records.map(keptPlan).toSorted((a, b) => b.atMs - a.atMs || b.key - a.key);
    },
    openAside({ found, text, fileName }) {
      const read = isStoredPlan(found) ? planIn(found) : null;
      return fileCommands(core).open(read?.ok ? planText(read.value) : text, fileName);
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
    bytes: new TextEncoder().encode(text).length,
    fault,
    fileName: fileNameOf(title ?? `kept ${new Date(atMs).toISOString().slice(0, 16)}`),
  };
}

function firstOf(faults: readonly { readonly path: string; readonly message: string }[]): string {
  const [first] = faults;
  const where = first && first.path !== "" ? `${first.path} ` : "";
  return `${where}${first?.message ?? "it has faults"}`;
}

/** The title that stands in a text that is no plan, or no whole one. */
function titleIn(text: string): string | null {
  const found = /"title"\s*:\s*"((?:[^"\\]|\\.){1,200})"/.exec(text)?.[1];
  if (found === undefined) return null;
  try {
    return JSON.parse(`"${found}"`) as string;
  } catch {
    return null;
  }
}

import "./export.css";
import { useEffect, useState } from "react";
import { everything, type Exported, EXPORTS } from "../../session/exports.ts";
import { closeAround, Dialog } from "../parts/dialog.tsx";
import { useAround, useDesk } from "../context.ts";
import { download } from "../parts/files.ts";
import { stateFile } from "../parts/statefile.ts";

/** What is known: nothing yet, why it could not be had, or what the files are made of. */
type Found = { readonly from: Exported } | { readonly problem: string } | null;

/** The open plan as files for other programs: one of a kind, or everything in one zip. */
export function ExportDialog() {
  const { desk, look } = useAround();
  const plan = useDesk((state) => state.plan);
  const [found, setFound] = useState<Found>(null);
  const [said, say] = useState("");

  useEffect(() => {
    let gone = false;
    desk.exported().then(
      (from) => {
        if (!gone) setFound({ from });
      },
      (error: unknown) => {
        if (!gone) setFound({ problem: error instanceof Error ? error.message : "unknown" });
      },
    );
    return () => {
      gone = true;
    };
  }, [desk, plan]);

  const save = (name: string, parts: BlobPart[], type: string): void => {
    download(name, parts, type);
    say(`${name} is written.`);
  };
  const from = found && "from" in found ? found.from : null;
  return (
    <Dialog
      className="export-dialog"
      aria-labelledby="export-title"
      onClose={() => look.setState({ exporting: false })}
    >
      <header className="part-head">
        <h2 id="export-title">Export for other programs</h2>
        <button type="button" className="quiet" onClick={closeAround}>
          Close
        </button>
      </header>
      {found && "problem" in found && (
        <p className="state breach" role="alert">
          The files cannot be made: {found.problem}.
        </p>
      )}
      <ul>
        {EXPORTS.map((kind) => ({ kind, disabledReason: kind.disabledReason?.(plan) ?? null })).map(
          ({ kind, disabledReason }) => (
            <li key={kind.id}>
              <span>
                <b>{kind.name}</b> <span className="note">{kind.purpose}</span>
                {disabledReason !== null && (
                  <span className="note state tight"> Not made: {disabledReason}.</span>
                )}
              </span>
              <button
                type="button"
                aria-label={`Save ${kind.file}`}
                disabled={from === null || disabledReason !== null}
                onClick={() => from && save(stateFile(plan, kind.file), [kind.make(from)], kind.type)}
              >
                Save
              </button>
            </li>
          ),
        )}
      </ul>
      <footer>
        <button
          type="button"
          className="primary"
          disabled={from === null}
          onClick={() =>
            from &&
            save(stateFile(plan, "all.zip"), [everything(from) as Uint8Array<ArrayBuffer>], "application/zip")
          }
        >
          Save everything as one zip
        </button>
        <span role="status">{found === null ? "Working out the ways and the bench…" : said}</span>
      </footer>
    </Dialog>
  );
}

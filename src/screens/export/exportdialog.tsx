import "./export.css";
import { useEffect, useState } from "react";
import type { Plan } from "../../plan/index.ts";
import { everything, type Exported, EXPORTS } from "../../session/exports.ts";
import { closeAround, Dialog } from "../parts/dialog.tsx";
import { useAround, useDesk } from "../context.ts";
import { download } from "../parts/files.ts";
import { stateFile } from "../parts/statefile.ts";

/** What is known: nothing yet, why it could not be had, or what the files are made of. */
type Found = { readonly from: Exported } | { readonly problem: string } | null;

/** The open plan as files for other programs: one of a kind, or everything in one zip. */
export function ExportDialog() {
  const { look } = useAround();
  const plan = useDesk((state) => state.plan);
  const found = useExported(plan);
  const [said, say] = useState("");

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
        {EXPORTS.map((kind) => (
          <ExportRow
            key={kind.id}
            kind={kind}
            plan={plan}
            isReady={from !== null}
            onSave={() => from && save(stateFile(plan, kind.file), [kind.make(from)], kind.type)}
          />
        ))}
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

/** What the files are made of, worked out anew whenever the plan is another. */
function useExported(plan: Plan): Found {
  const { desk } = useAround();
  const [found, setFound] = useState<Found>(null);
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
  return found;
}

/** A kind of file: what it is for, why it is not made where it is not, and the button that saves it. */
function ExportRow(props: {
  readonly kind: (typeof EXPORTS)[number];
  readonly plan: Plan;
  readonly isReady: boolean;
  readonly onSave: () => void;
}) {
  const { kind, plan, isReady, onSave } = props;
  const disabledReason = kind.disabledReason?.(plan) ?? null;
  return (
    <li>
      <span>
        <b>{kind.name}</b> <span className="note">{kind.purpose}</span>
        {disabledReason !== null && <span className="note state tight"> Not made: {disabledReason}.</span>}
      </span>
      <button
        type="button"
        aria-label={`Save ${kind.file}`}
        disabled={!isReady || disabledReason !== null}
        onClick={onSave}
      >
        Save
      </button>
    </li>
  );
}

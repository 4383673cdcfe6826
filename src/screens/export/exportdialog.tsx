import "./export.css";
import { useCallback, useState } from "react";
import type { Plan } from "../../plan/index.ts";
import { everything, EXPORTS } from "../../session/exports.ts";
import { Dialog } from "../parts/dialog.tsx";
import { DialogHead } from "../parts/dialoghead.tsx";
import { useApp, useSession } from "../context.ts";
import { download } from "../parts/files.ts";
import { useFound } from "../parts/found.ts";
import { stateFile } from "../parts/statefile.ts";

/** The open plan as files for other programs: one of a kind, or everything in one zip. */
export function ExportDialog() {
  const { session, view } = useApp();
  const plan = useSession((state) => state.plan);
  // Worked out anew whenever the plan is another.
  // eslint-disable-next-line react-hooks/exhaustive-deps
  const found = useFound(useCallback(() => session.exported(), [session, plan]));
  const [notice, say] = useState("");

  const save = (name: string, parts: BlobPart[], type: string): void => {
    download(name, parts, type);
    say(`${name} is written.`);
  };
  const from = found && "answer" in found ? found.answer : null;
  return (
    <Dialog
      className="export-dialog"
      aria-labelledby="export-title"
      onClose={() => view.setState({ exporting: false })}
    >
      <DialogHead id="export-title" title="Export for other programs" />
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
          title={from === null ? AWAITED : undefined}
          onClick={() =>
            from &&
            save(stateFile(plan, "all.zip"), [everything(from) as Uint8Array<ArrayBuffer>], "application/zip")
          }
        >
          Save everything as one zip
        </button>
        <span role="status">{found === null ? "Working out the ways and the bench…" : notice}</span>
      </footer>
    </Dialog>
  );
}

/** Why nothing is saved yet. */
const AWAITED = "The ways and the bench are being worked out.";

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
        title={disabledReason !== null ? `Not made: ${disabledReason}` : isReady ? undefined : AWAITED}
        onClick={onSave}
      >
        Save
      </button>
    </li>
  );
}

import { useApp, useView } from "../context.ts";
import { Dialog } from "../parts/dialog.tsx";
import { savePlan, savePlanAsDownload } from "../parts/files.ts";

/** Asks what to do where somebody else has written the plan's file since it was read or saved here. */
export function ChangedFile() {
  const name = useView((state) => state.changedFile);
  return name === null ? null : <ChangedFileQuestion name={name} />;
}

function ChangedFileQuestion({ name }: { readonly name: string }) {
  const { session, view } = useApp();
  const close = (): void => view.setState({ changedFile: null });
  return (
    <Dialog className="ask-dialog changed-file" aria-labelledby="changed-file" onClose={close}>
      <h2 id="changed-file">{name} holds something else</h2>
      <p>
        It is not what was last read or saved there from this browser, so nothing was written. To put both
        together, leave it and merge the file: Plan file, Plans in this browser, Merge a file.
      </p>
      <div className="pair">
        <button type="button" className="primary" onClick={close}>
          Leave it
        </button>
        <button
          type="button"
          onClick={() => {
            close();
            savePlanAsDownload(session);
          }}
        >
          Save as a download
        </button>
        <button
          type="button"
          onClick={() => {
            close();
            void savePlan(session, view, true);
          }}
        >
          Write over it
        </button>
      </div>
    </Dialog>
  );
}

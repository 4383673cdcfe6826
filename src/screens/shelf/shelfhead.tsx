import type { Card } from "../../session/index.ts";
import { counted, sizeWords } from "../../words/index.ts";
import { useApp } from "../context.ts";
import { DialogHead } from "../parts/dialoghead.tsx";
import { chooseFile } from "../parts/files.ts";

/** The shelf's title, whether plans or the bin are shown, and how a plan comes to it. */
export function ShelfHead(props: {
  /** All plans, those in the bin with them; null while they are not known. */
  readonly cards: readonly Card[] | null;
  readonly bin: boolean;
  readonly showBin: (bin: boolean) => void;
  readonly onMerge: (file: File | null) => void;
  readonly close: () => void;
}) {
  const { cards, bin, showBin, onMerge, close } = props;
  const { session, view } = useApp();
  const binned = (cards ?? []).filter((one) => one.binnedAtMs !== null);
  const bytes = (cards ?? []).reduce((sum, one) => sum + one.bytes, 0);
  return (
    <DialogHead id="shelf-title" title="Plans in this browser">
      <div className="pair" role="group" aria-label="Shown">
        <button type="button" aria-pressed={!bin} onClick={() => showBin(false)}>
          Plans
        </button>
        <button type="button" aria-pressed={bin} onClick={() => showBin(true)}>
          Bin ({binned.length})
        </button>
      </div>
      <span className="note">{cards && `${counted(cards.length, "plan")}, ${sizeWords(bytes)}`}</span>
      <button
        type="button"
        onClick={() => {
          session.newPlan();
          close();
        }}
      >
        New plan
      </button>
      <button
        type="button"
        onClick={() => {
          close();
          chooseFile(session, view);
        }}
      >
        Open a file…
      </button>
      <MergeFile onFile={onMerge} />
    </DialogHead>
  );
}

function MergeFile({ onFile }: { readonly onFile: (file: File | null) => void }) {
  return (
    <label className="button">
      Merge a file…
      <input
        type="file"
        className="unseen"
        accept=".json,application/json"
        onChange={(event) => {
          onFile(event.target.files?.[0] ?? null);
          event.target.value = "";
        }}
      />
    </label>
  );
}

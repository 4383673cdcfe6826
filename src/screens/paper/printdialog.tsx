import { useRef } from "react";
import { Dialog } from "../parts/dialog.tsx";
import { counted } from "../../words/index.ts";
import type { PaperDoubt, PaperJob, PaperKind, PaperPage, PaperSize } from "../services.ts";
import { Doubts } from "./doubts.tsx";

export const SIZE_WORDS: Readonly<Record<PaperSize, string>> = {
  cuff: "Cuff, 98 × 132 mm",
  a4: "A4",
  letter: "Letter",
};

interface Props {
  readonly kind: PaperKind;
  readonly job: PaperJob;
  readonly pages: readonly PaperPage[];
  readonly doubts: readonly PaperDoubt[];
  onJob(part: Partial<PaperJob>): void;
  onPrint(): void;
  onClose(): void;
}

/** How pages go on paper, chosen beside a picture of the first sheet, and what to know before they are printed. */
export function PrintDialog({ kind, job, pages, doubts, onJob, onPrint, onClose }: Props) {
  const ref = useRef<HTMLDialogElement>(null);
  const close = (): void => ref.current?.close();
  const twoSided = isCut(kind, job) && job.duplex;
  const sheets = twoSided ? pages.length / 2 : pages.length;
  return (
    <Dialog box={ref} className="print-dialog" aria-labelledby="print-title" onClose={onClose}>
      <header className="part-head">
        <h2 id="print-title">Print: {kind.name}</h2>
      </header>
      <div className="print-choices">
        <Choice
          name="Paper"
          of={kind.sizes.map((size) => [size, SIZE_WORDS[size]])}
          value={job.size}
          onChoose={(size) => onJob({ size })}
        />
        {isCut(kind, job) && <CutChoices job={job} onJob={onJob} />}
        <HolesChoice kind={kind} job={job} onJob={onJob} />
        <p className="note">
          {counted(sheets, "sheet")} of paper. Printed at full size: choose no fitting to the page.
        </p>
        <Doubts list={doubts} onGo={close} />
      </div>
      <FirstSheet sides={pages.slice(0, twoSided ? 2 : 1)} />
      <footer className="print-end">
        <button type="button" className="primary" onClick={onPrint}>
          Print these pages
        </button>
        <button type="button" onClick={close}>
          Close
        </button>
      </footer>
    </Dialog>
  );
}

/** Whether several pages go on a sheet that is cut. */
function isCut(kind: PaperKind, job: PaperJob): boolean {
  return kind.cut === true && job.size !== "cuff";
}

/** How sheets that are cut are printed: their sides, and in which order pages lie on them. */
function CutChoices({ job, onJob }: Pick<Props, "job" | "onJob">) {
  return (
    <>
      <Choice
        name="Sides"
        of={[
          ["one", "One side"],
          ["both", "Both, turned over the long edge"],
        ]}
        value={job.duplex ? "both" : "one"}
        onChoose={(sides) => onJob({ duplex: sides === "both" })}
      />
      <Choice
        name="Order"
        of={[
          ["stack", "Cut as a stack, piles laid on each other"],
          ["reading", "Pages in order on each sheet"],
        ]}
        value={job.order}
        onChoose={(order) => onJob({ order })}
      />
    </>
  );
}

/** Room for what holds the pages together, where it is not there anyway. */
function HolesChoice({ kind, job, onJob }: Pick<Props, "kind" | "job" | "onJob">) {
  if (job.size === "cuff" || kind.id === "day") return null;
  return (
    <label>
      <input
        type="checkbox"
        checked={job.holes}
        onChange={(event) => onJob({ holes: event.target.checked })}
      />{" "}
      {isCut(kind, job) ? "Crosses for the rings" : "Room for two holes"}
    </label>
  );
}

/** The first sheet as it will come out of the printer. */
function FirstSheet({ sides }: { readonly sides: readonly PaperPage[] }) {
  return (
    <div className="print-picture" role="group" aria-label="The first sheet">
      {sides.map((page, i) => (
        <figure key={page.name + i}>
          <div
            className="print-sheet"
            style={{ aspectRatio: `${page.widthMm} / ${page.heightMm}` }}
            // The pages are this program's own drawing; all text in them is escaped where they are made.
            dangerouslySetInnerHTML={{ __html: page.svg }}
          />
          {sides.length > 1 && <figcaption>{i === 0 ? "Front" : "Back"}</figcaption>}
        </figure>
      ))}
    </div>
  );
}

interface ChoiceProps<Value extends string> {
  readonly name: string;
  readonly of: readonly (readonly [Value, string])[];
  readonly value: Value;
  onChoose(value: Value): void;
}

function Choice<Value extends string>({ name, of, value, onChoose }: ChoiceProps<Value>) {
  return (
    <fieldset>
      <legend>{name}</legend>
      {of.map(([one, words]) => (
        <label key={one}>
          <input type="radio" name={name} checked={one === value} onChange={() => onChoose(one)} /> {words}
        </label>
      ))}
    </fieldset>
  );
}

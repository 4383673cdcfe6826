import { useState } from "react";
import type { PrintedWork, LateTableWork } from "../../session/index.ts";
import { isOnGrid } from "../../session/index.ts";
import { counted, gridName } from "../../words/index.ts";
import { useApp, useSession } from "../context.ts";
import { download } from "../parts/files.ts";
import { Remarks } from "../parts/remarks/remarks.tsx";
import { stateFile } from "../parts/statefile.ts";
import type { PaperDoubt, PaperGiven, PaperJob, PaperKind, PaperPage, PaperPort } from "../services.ts";
import { Doubts } from "./doubts.tsx";
import type { LatePages } from "./papergiven.ts";
import type { ChosenJob } from "./paperjob.ts";
import { SIZE_WORDS } from "./printdialog.tsx";

/** Why nothing is printed yet. */
const HELD = "Held until the pages for being late are worked out";
const UNTESTED = "Held until the judge has tested every moment that is printed";

/** What is above the pages: what to print on what, how far it is worked out, and what to know before. */
export function PaperTools(props: {
  readonly paper: PaperPort;
  readonly chosen: ChosenJob;
  readonly printed: PrintedWork | null;
  readonly late: LatePages;
  readonly given: PaperGiven | null;
  readonly pages: readonly PaperPage[];
  readonly doubts: readonly PaperDoubt[];
  onPrint(): void;
}) {
  const { paper, chosen, printed, late, given, pages, doubts } = props;
  const { kind, job } = chosen;
  const pdf = usePdf(paper, job, given);
  const why = printed?.report ? (late.isLacking ? HELD : undefined) : UNTESTED;
  return (
    <div className="paper-tools">
      <WhatChoice kinds={paper.kinds} chosen={chosen} />
      <SizeChoice chosen={chosen} />
      <AboutPages kind={kind} pages={pages} printed={printed} lateTable={late.lateTable} />
      <div className="paper-acts">
        <PrintButtons idle={isIdle(pages, late)} why={why} onPrint={props.onPrint} onPdf={pdf.make} />
        {late.isLacking && (
          <button type="button" onClick={late.goWithout}>
            Without late pages
          </button>
        )}
        <GridOffer />
      </div>
      <PrintedFailure printed={printed} />
      <div className="paper-more">
        <Doubts list={doubts} />
        {kind && <Remarks key={kind.id} about={{ kind: "page", id: kind.id }} name={kind.name} />}
      </div>
      <BreachesOnPaper />
      {pdf.problem !== null && <p className="state breach">The PDF could not be made: {pdf.problem}</p>}
    </div>
  );
}

/** True while there is nothing that may be printed. */
export function isIdle(pages: readonly PaperPage[], late: LatePages): boolean {
  return pages.length === 0 || late.isLacking;
}

/** Saves the pages as a file; `problem` says why the last one could not be made. */
function usePdf(paper: PaperPort, job: PaperJob, given: PaperGiven | null) {
  const [problem, setProblem] = useState<string | null>(null);
  const make = async (): Promise<void> => {
    if (given === null) return;
    try {
      setProblem(null);
      const file = await paper.pdf(job, given);
      const name = stateFile(file.plan, `${job.kind}.pdf`);
      download(name, [file.bytes as Uint8Array<ArrayBuffer>], "application/pdf");
    } catch (error) {
      setProblem(error instanceof Error ? error.message : "unknown");
    }
  };
  return { problem, make };
}

function WhatChoice({ kinds, chosen }: { readonly kinds: readonly PaperKind[]; readonly chosen: ChosenJob }) {
  return (
    <div className="pair" role="group" aria-label="What to print">
      {kinds.map(({ id, name }) => (
        <button
          key={id}
          type="button"
          aria-pressed={id === chosen.job.kind}
          onClick={() => chosen.choose(id)}
        >
          {name}
        </button>
      ))}
    </div>
  );
}

function SizeChoice({ chosen }: { readonly chosen: ChosenJob }) {
  return (
    <div className="pair" role="group" aria-label="Paper">
      {chosen.kind?.sizes.map((size) => (
        <button
          key={size}
          type="button"
          aria-pressed={size === chosen.job.size}
          onClick={() => chosen.wish({ size })}
        >
          {SIZE_WORDS[size]}
        </button>
      ))}
    </div>
  );
}

/** What the kind is for, how many pages of what size it has, and how far they are worked out. */
function AboutPages(props: {
  readonly kind: PaperKind | undefined;
  readonly pages: readonly PaperPage[];
  readonly printed: PrintedWork | null;
  readonly lateTable: LateTableWork | null;
}) {
  const { kind, pages, printed, lateTable } = props;
  const [first] = pages;
  return (
    <p className="note">
      {kind?.purpose}{" "}
      {first && `${counted(pages.length, "page")} of ${first.widthMm} × ${first.heightMm} mm.`}
      <JudgedWords printed={printed} />
      {kind?.late && <LateWords lateTable={lateTable} />}
    </p>
  );
}

/** Print and save. They stay where they are while the pages are held: the keyboard keeps its place. */
function PrintButtons(props: {
  readonly idle: boolean;
  /** Why they are held. */
  readonly why: string | undefined;
  onPrint(): void;
  onPdf(): Promise<void>;
}) {
  const { idle, why, onPrint, onPdf } = props;
  return (
    <>
      <button
        type="button"
        className="primary"
        aria-disabled={idle}
        title={why}
        onClick={() => !idle && onPrint()}
      >
        Print
      </button>
      <button type="button" aria-disabled={idle} title={why} onClick={() => !idle && void onPdf()}>
        Save as PDF
      </button>
    </>
  );
}

/** The way to starts on whole minutes, where some are not. */
function GridOffer() {
  const { session } = useApp();
  const plan = useSession((state) => state.plan);
  const packing = useSession((state) => state.run?.running === true);
  if (isOnGrid(plan)) return null;
  return (
    <button
      type="button"
      disabled={packing}
      title={packing ? "The packer is at work." : undefined}
      onClick={() => void session.putOnGrid()}
    >
      Put on {gridName(plan.rules.startGridS)}
    </button>
  );
}

function PrintedFailure({ printed }: { readonly printed: PrintedWork | null }) {
  const { session } = useApp();
  if (printed?.end !== "failed") return null;
  return (
    <p className="state breach">
      What is printed could not be worked out: {printed.message}{" "}
      <button type="button" onClick={() => void session.askPrinted()}>
        Try again
      </button>
    </p>
  );
}

function BreachesOnPaper() {
  const breaches = useSession((state) => state.verdict.score.breaches);
  if (breaches === 0) return null;
  return (
    <p className="state breach">
      This day has {counted(breaches, "breach", "breaches")}: the paper shows it as it is.
    </p>
  );
}

/** How far the judge is with the moments that are printed; nothing once all are tested. */
function JudgedWords({ printed }: { readonly printed: PrintedWork | null }) {
  if (printed && !printed.running) return null;
  const { walks = 0, of = 0 } = printed?.progress ?? {};
  return (
    <b role="status">
      {" "}
      The judge is testing the moments that are printed{of > 0 ? `: ${walks} of ${counted(of, "walk")}` : ""}…
    </b>
  );
}

/** Whether the pages for being late are among the pages. */
function LateWords({ lateTable }: { readonly lateTable: LateTableWork | null }) {
  if (lateTable?.report && !lateTable.report.sound) return <b> No late page: the day breaks a rule.</b>;
  if (lateTable?.report?.complete)
    return lateTable.report.evas.length > 0 ? " With the late page of every EVA." : "";
  if (lateTable && !lateTable.running) return <b> Without late pages: they were not worked out.</b>;
  const { rows = 0, of = 0 } = lateTable?.progress ?? {};
  return <b> The late pages are being worked out{of > 0 ? `: ${rows} of ${of}` : ""}…</b>;
}

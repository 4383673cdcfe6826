import "./paper.css";
import { useEffect, useMemo, useState } from "react";
import { useSession } from "../context.ts";
import type { PaperPage, PaperPort } from "../services.ts";
import { chancesToPrint, useLatePages, usePaperGiven, usePrinted } from "./papergiven.ts";
import { usePaperJob } from "./paperjob.ts";
import { isIdle, PaperTools } from "./papertools.tsx";
import { PrintDialog } from "./printdialog.tsx";

/** The pages as they will be printed: cuff checklists, the day, or another sheet. Printing prints these pages only. */
export function PaperView({ paper }: { readonly paper: PaperPort }) {
  const chosen = usePaperJob(paper.kinds);
  const { job, kind } = chosen;
  const late = useLatePages(kind?.late ?? false);
  const printed = usePrinted();
  const given = usePaperGiven(paper, kind, printed, late.tables);
  const pages = useMemo(() => (given ? paper.pages(job, given) : []), [paper, job, given]);
  const doubts = usePaperDoubts(paper);
  const [isOpen, setOpen] = useState(false);
  usePageSize(pages[0]);
  return (
    <div className="paper-view">
      <PaperTools {...{ paper, chosen, printed, late, given, pages, doubts }} onPrint={() => setOpen(true)} />
      {isOpen && kind && !isIdle(pages, late) && (
        <PrintDialog
          {...{ kind, job, pages, doubts }}
          onJob={chosen.wish}
          onPrint={() => window.print()}
          onClose={() => setOpen(false)}
        />
      )}
      <Pages pages={pages} />
    </div>
  );
}

/** What is to be known before print, of the open day. */
function usePaperDoubts(paper: PaperPort) {
  const plan = useSession((state) => state.plan);
  const verdict = useSession((state) => state.verdict);
  const chances = useSession(chancesToPrint);
  return useMemo(() => paper.doubts(plan, verdict, chances), [paper, plan, verdict, chances]);
}

/** Prints on sheets of the first page's size. */
function usePageSize(first: PaperPage | undefined): void {
  useEffect(() => {
    if (!first) return;
    // The sheet's size is only known here, so the rule for it is made here.
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(`@page { size: ${first.widthMm}mm ${first.heightMm}mm; margin: 0; }`);
    // As an element it would be text that the page's policy does not let in.
    document.adoptedStyleSheets.push(sheet);
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== sheet);
    };
  }, [first]);
}

function Pages({ pages }: { readonly pages: readonly PaperPage[] }) {
  return (
    <div className="paper-pages" tabIndex={0} role="region" aria-label="Pages">
      {pages.map((page, i) => (
        <div
          key={i}
          className="paper-page"
          style={{
            aspectRatio: `${page.widthMm} / ${page.heightMm}`,
            width: `${page.widthMm * (page.widthMm > 150 ? 1.3 : 0.92)}mm`,
          }}
          // The pages are this program's own drawing; all text in them is escaped where they are made.
          dangerouslySetInnerHTML={{ __html: page.svg }}
        />
      ))}
    </div>
  );
}

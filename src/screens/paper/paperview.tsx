import { useEffect, useMemo, useState } from "react";
import type { ChancesReport } from "../../answers/index.ts";
import {
  benchStands,
  chancesAtRest,
  type DeskState,
  isOnGrid,
  MANY_DAYS,
  printedIsStale,
  type PrintedWork,
  shedIsStale,
  type ShedWork,
} from "../../session/index.ts";
import type { Plan } from "../../plan/index.ts";
import { counted, gridName } from "../../words/index.ts";
import { useAround, useDesk } from "../context.ts";
import { useShed } from "../useshed.ts";
import { download } from "../parts/files.ts";
import { stateFile } from "../parts/statefile.ts";
import { Said } from "../parts/said/said.tsx";
import type { PaperGiven, PaperJob, PaperPort, PaperSite, PaperSize } from "../services.ts";
import { Doubts } from "./doubts.tsx";
import { PrintDialog, SIZE_WORDS } from "./printdialog.tsx";

const FIRST_WISHES: Omit<PaperJob, "kind" | "size"> = { duplex: false, order: "stack", holes: false };

/** Why nothing is printed yet. */
const HELD = "Held until the pages for being late are worked out";
const UNTESTED = "Held until the judge has tested every moment that is printed";

/** Has what is printed worked out when there is none or the plan has changed; null until it is there. */
function usePrinted(): PrintedWork | null {
  const { desk } = useAround();
  const printed = useDesk((state) => (printedIsStale(state) ? null : state.printed));
  const due = printed === null;
  useEffect(() => {
    if (due) void desk.askPrinted();
  }, [due, desk]);
  return printed;
}

/** Why what is on the bench is there, where that is known of the open day. */
function reasonsToPrint(state: DeskState): DeskState["benchReasons"] | undefined {
  return benchStands(state) ? state.benchReasons : undefined;
}

/** The chances that may be printed: of the open day, counted on many days. */
function chancesToPrint(state: DeskState): ChancesReport | null {
  const report = chancesAtRest(state);
  return report && report.days >= MANY_DAYS ? report : null;
}

/** The ways over the site of the open plan, while they are wanted; undefined until they are there. */
function useSite(paper: PaperPort, plan: Plan, wanted: boolean): PaperSite | undefined {
  const [known, setKnown] = useState<{ readonly plan: Plan; readonly site: PaperSite } | null>(null);
  const due = wanted && known?.plan !== plan;
  useEffect(() => {
    if (!due) return;
    const control = new AbortController();
    paper.site(plan, control.signal).then(
      (site) => setKnown({ plan, site }),
      // Without them the sheet says that they are not known.
      () => undefined,
    );
    return () => control.abort();
  }, [paper, plan, due]);
  return known?.plan === plan ? known.site : undefined;
}

/** The pages as they will be printed: cuff checklists, the day, or another sheet. Printing prints these pages only. */
export function PaperView({ paper }: { readonly paper: PaperPort }) {
  const { desk } = useAround();
  const plan = useDesk((state) => state.plan);
  const verdict = useDesk((state) => state.verdict);
  const packing = useDesk((state) => state.run?.running === true);
  const [id, setId] = useState(paper.kinds[0]?.id ?? "");
  const [wishes, setWishes] = useState(FIRST_WISHES);
  // What one kind is printed on says nothing of another: a sheet is no cuff page.
  const [sizes, setSizes] = useState<Readonly<Record<string, PaperSize>>>({});
  const [asking, setAsking] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const chosen = paper.kinds.find((one) => one.id === id);
  const size = sizes[id] ?? chosen?.sizes[0] ?? "a4";
  const job = useMemo((): PaperJob => ({ ...wishes, kind: id, size }), [wishes, id, size]);
  const wish = ({ size: other, ...rest }: Partial<PaperJob>): void => {
    if (other) setSizes({ ...sizes, [id]: other });
    setWishes({ ...wishes, ...rest });
  };

  const late = chosen?.late ?? false;
  useShed(late);
  const shed = useDesk((state) => (shedIsStale(state) ? null : state.shed));
  const tables = late && shed?.report?.complete ? shed.report : undefined;
  // What is saved now would lack the late pages: it is held until they are there, or not wanted.
  const pending = late && tables === undefined && (shed === null || shed.running);
  const [without, setWithout] = useState<typeof plan | null>(null);
  const held = pending && without !== plan;

  const printed = usePrinted();
  const day = printed?.report ?? null;
  const chances = useDesk(chancesToPrint);
  const reasons = useDesk(reasonsToPrint);
  const site = useSite(paper, plan, chosen?.ways ?? false);
  const given = useMemo(
    (): PaperGiven | null =>
      day && {
        ...{ plan, verdict, day, chances, site },
        shed: tables,
        reasons: reasons && [...reasons.values()],
      },
    [plan, verdict, day, chances, site, tables, reasons],
  );
  const pages = useMemo(() => (given ? paper.pages(job, given) : []), [paper, job, given]);
  const doubts = useMemo(() => paper.doubts(plan, verdict, chances), [paper, plan, verdict, chances]);
  const first = pages[0];
  // The keyboard stays where it is led to while the pages are held.
  const idle = pages.length === 0 || held;
  const why = day === null ? UNTESTED : held ? HELD : undefined;
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

  const toPdf = async (): Promise<void> => {
    if (given === null) return;
    try {
      setProblem(null);
      const file = await paper.pdf(job, given);
      const name = stateFile(file.plan, `${id}.pdf`);
      download(name, [file.bytes as Uint8Array<ArrayBuffer>], "application/pdf");
    } catch (error) {
      setProblem(error instanceof Error ? error.message : "unknown");
    }
  };

  return (
    <div className="paper-view">
      <div className="paper-tools">
        <div className="pair" role="group" aria-label="What to print">
          {paper.kinds.map((one) => (
            <button key={one.id} type="button" aria-pressed={one.id === id} onClick={() => setId(one.id)}>
              {one.name}
            </button>
          ))}
        </div>
        <div className="pair" role="group" aria-label="Paper">
          {chosen?.sizes.map((one) => (
            <button key={one} type="button" aria-pressed={one === size} onClick={() => wish({ size: one })}>
              {SIZE_WORDS[one]}
            </button>
          ))}
        </div>
        <p className="note">
          {chosen?.purpose}{" "}
          {first && `${counted(pages.length, "page")} of ${first.widthMm} × ${first.heightMm} mm.`}
          <JudgedWords printed={printed} />
          {late && <LateWords shed={shed} />}
        </p>
        <button
          type="button"
          className="primary"
          aria-disabled={idle}
          title={why}
          onClick={() => !idle && setAsking(true)}
        >
          Print
        </button>
        <button type="button" aria-disabled={idle} title={why} onClick={() => !idle && void toPdf()}>
          Save as PDF
        </button>
        {held && (
          <button type="button" onClick={() => setWithout(plan)}>
            Without late pages
          </button>
        )}
        {!isOnGrid(plan) && (
          <button type="button" disabled={packing} onClick={() => void desk.putOnGrid()}>
            Put on {gridName(plan.rules.startGridS)}
          </button>
        )}
        {printed?.end === "failed" && (
          <p className="state breach">
            What is printed could not be worked out: {printed.message}{" "}
            <button type="button" onClick={() => void desk.askPrinted()}>
              Try again
            </button>
          </p>
        )}
        <Doubts list={doubts} />
        {chosen && <Said key={id} about={{ kind: "page", id }} name={chosen.name} />}
        {verdict.score.breaches > 0 && (
          <p className="state breach">
            This day has {counted(verdict.score.breaches, "breach", "breaches")}: the paper shows it as it is.
          </p>
        )}
        {problem !== null && <p className="state breach">The PDF could not be made: {problem}</p>}
      </div>
      {asking && chosen && !idle && (
        <PrintDialog
          kind={chosen}
          job={job}
          pages={pages}
          doubts={doubts}
          onJob={wish}
          onPrint={() => window.print()}
          onClose={() => setAsking(false)}
        />
      )}
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
    </div>
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
function LateWords({ shed }: { readonly shed: ShedWork | null }) {
  if (shed?.report && !shed.report.sound) return <b> No late page: the day breaks a rule.</b>;
  if (shed?.report?.complete) return shed.report.evas.length > 0 ? " With the late page of every EVA." : "";
  if (shed && !shed.running) return <b> Without late pages: they were not worked out.</b>;
  const { rows = 0, of = 0 } = shed?.progress ?? {};
  return <b> The late pages are being worked out{of > 0 ? `: ${rows} of ${of}` : ""}…</b>;
}

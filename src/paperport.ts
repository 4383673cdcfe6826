import { check } from "./check/index.ts";
import type { Engine } from "./engine/calls.ts";
import {
  beforePrint,
  booklets,
  daySheet,
  impose,
  type Paper,
  type Rehearsed,
  SHEET_KINDS,
  type SheetKindId,
  type SheetNeed,
  sheetPaper,
  stampOf,
  toSvgPages,
} from "./exchange/paper/index.ts";
import { keysOf } from "./kernel/index.ts";
import type { Plan } from "./plan/index.ts";
import { facesFromServer } from "./screens/paper/faces.ts";
import type { PaperGiven, PaperJob, PaperKind, PaperPort } from "./screens/services.ts";

/** What paper the paper screen is given. Fetched with that screen: laying out pages takes more than the rest of the program. */

const CUFF: PaperKind = {
  id: "cuff",
  name: "Cuff checklists",
  purpose: "One booklet a crew member, one task a page.",
  sizes: ["cuff", "a4", "letter"],
  late: true,
  cut: true,
};
const DAY: PaperKind = {
  id: "day",
  name: "Day timeline",
  purpose: "The whole day on one sheet.",
  sizes: ["a4", "letter"],
};

const SHEETS: readonly PaperKind[] = keysOf(SHEET_KINDS).map((id) => {
  const { name, purpose } = SHEET_KINDS[id];
  const needs: readonly SheetNeed[] = SHEET_KINDS[id].needs;
  const sizes = ["a4", "letter", "cuff"] as const;
  return { id, name, purpose, sizes, late: needs.includes("late table"), ways: needs.includes("walks") };
});

/** What the port asks others for. */
export interface PaperSources {
  readonly engine: Pick<Engine, "siteWalks" | "siteGround">;
  readonly sunDeg: SunDeg;
  /** The day under rehearsal and what came of it; null where there is none. */
  rehearsed(): Rehearsed | null;
}

type SunDeg = (plan: Plan, atS: number) => number | null;

function paperOf(
  { kind, size, duplex, order, holes }: PaperJob,
  given: PaperGiven,
  { sunDeg, rehearsed }: PaperSources,
): Paper {
  const { plan, verdict, day, lateTable, chances, reasons, site } = given;
  if (kind === DAY.id) {
    const stamp = stampOf(plan, verdict, Date.now());
    return daySheet(plan, verdict, stamp, size === "letter" ? "letter" : "a4", day, chances);
  }
  const sheet: SheetKindId | undefined = keysOf(SHEET_KINDS).find((id) => id === kind);
  if (sheet === undefined) {
    const pages = booklets(plan, verdict, { day, lateTable, printedMs: Date.now() });
    return size === "cuff" ? pages : impose(pages, { sheet: size, duplex, order, rings: holes });
  }
  const facts = {
    ...{ plan, verdict, day, lateTable, reasons },
    sunDeg: (atS: number) => sunDeg(plan, atS),
    rehearsal: rehearsed() ?? undefined,
    walks: site?.walks,
    ground: site?.ground,
  };
  const of = planOf(kind, plan, facts.rehearsal);
  const stamp = stampOf(of, of === plan ? verdict : check(of), Date.now());
  return sheetPaper(sheet, facts, stamp, { paper: size, punched: holes });
}

/** The plan that a sheet is of: a rehearsal keeps the one that it began with, and its sheets name the revision that it runs. */
function planOf(kind: string, plan: Plan, rehearsal: Rehearsed | undefined): Plan {
  const sheet = keysOf(SHEET_KINDS).find((id) => id === kind);
  const needs: readonly SheetNeed[] = sheet === undefined ? [] : SHEET_KINDS[sheet].needs;
  return rehearsal && needs.includes("rehearsal") ? rehearsal.plan : plan;
}

/** Paper, with ways, sun and rehearsal from whoever knows them. */
export function paperPort(sources: PaperSources): PaperPort {
  const { engine } = sources;
  return {
    kinds: [CUFF, DAY, ...SHEETS],
    async site(plan, signal) {
      const [walks, ground] = await Promise.all([
        engine.siteWalks(plan, { schedule: plan.schedule }, { signal }),
        engine.siteGround(plan, {}, { signal }),
      ]);
      return { walks, ground };
    },
    pages(job, given) {
      const made = paperOf(job, given, sources);
      return toSvgPages(made).map((svg, i) => {
        const { widthMm = 0, heightMm = 0, name = "" } = made.pages[i] ?? {};
        return { svg, widthMm, heightMm, name };
      });
    },
    doubts: beforePrint,
    // The PDF writer is as large as the rest of the app: it is fetched when somebody asks for a file.
    async pdf(job, given) {
      const { toPdf } = await import("./exchange/paper/pdf.ts");
      const bytes = await toPdf(paperOf(job, given, sources), facesFromServer);
      return { bytes, plan: planOf(job.kind, given.plan, sources.rehearsed() ?? undefined) };
    },
  };
}

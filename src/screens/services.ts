import type {
  BenchReason,
  ChancesReport,
  PrintedDay,
  LateReport,
  SiteGround,
  SiteWalks,
  Verdict,
} from "../answers/index.ts";
import type { WalkS } from "../editor/index.ts";
import type { Plan } from "../plan/index.ts";
import type { Session } from "../session/index.ts";

/** One page of paper: a complete SVG document, its size, and what it is in words. */
export interface PaperPage {
  readonly svg: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly name: string;
}

export type PaperSize = "cuff" | "a4" | "letter";

/** What can be printed: a name for the chooser and words on what it is for. */
export interface PaperKind {
  readonly id: string;
  readonly name: string;
  readonly purpose: string;
  /** What it is printed on; the first where nobody has chosen. */
  readonly sizes: readonly [PaperSize, ...PaperSize[]];
  /** True where the table for being late belongs to it. */
  readonly late?: boolean;
  /** True where the ways over the site belong to it. */
  readonly ways?: boolean;
  /** True where four pages go on an A4 or Letter sheet, to be cut. */
  readonly cut?: boolean;
}

/** What is to be printed, and how it goes on paper. */
export interface PaperJob {
  readonly kind: string;
  readonly size: PaperSize;
  /** Both sides, turned over the long edge. */
  readonly duplex: boolean;
  /** stack: cut into piles that are laid on each other. reading: pages in order on each sheet. */
  readonly order: "stack" | "reading";
  /** Crosses for the rings of cuff pages, or room and crosses for two holes in a sheet. */
  readonly holes: boolean;
}

/** What is said on paper: `verdict` is that of `plan` with its own schedule, all else of the same day; missing where it is not known. */
export interface PaperGiven {
  readonly plan: Plan;
  readonly verdict: Verdict;
  readonly day: PrintedDay;
  readonly lateTable?: LateReport | undefined;
  readonly chances: ChancesReport | null;
  readonly reasons?: readonly BenchReason[] | undefined;
  readonly site?: PaperSite | undefined;
}

export interface PaperSite {
  readonly walks: SiteWalks;
  readonly ground: SiteGround | null;
}

/** Something to know before print, in words that follow "On paper:", the tasks it is about, and the screen where it is mended. */
export interface PaperDoubt {
  readonly words: string;
  readonly tasks: readonly string[];
  readonly at: { readonly screen: "day" | "odds" } | { readonly screen: "setup"; readonly page: string };
}

interface PaperFile {
  readonly bytes: Uint8Array;
  /** The plan that it is of: sheets of a rehearsal are of the one that it began with. */
  readonly plan: Plan;
}

/** Paper as the views see it. */
export interface PaperPort {
  readonly kinds: readonly PaperKind[];
  /** The ways over the site of a plan, for the kinds that show them. */
  site(plan: Plan, signal: AbortSignal): Promise<PaperSite>;
  pages(job: PaperJob, given: PaperGiven): readonly PaperPage[];
  doubts(plan: Plan, verdict: Verdict, chances: ChancesReport | null): readonly PaperDoubt[];
  /** The same pages as a PDF file. */
  pdf(job: PaperJob, given: PaperGiven): Promise<PaperFile>;
}

/** What every view may ask for; wired once, at the start. */
export interface Services {
  readonly session: Session;
  /** Sun elevation over the site, degrees; null where it is unknown. */
  readonly sunDeg: (plan: Plan, atS: number) => number | null;
  /** Walking times between the plan's places, at the planned speed. */
  readonly walkS: (plan: Plan) => WalkS;
  /** Where the theme is remembered; may fail silently. */
  readonly memory: { get(key: string): string | null; set(key: string, value: string): boolean };
}

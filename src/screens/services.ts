import type { ChancesReport, PrintedDay, ShedReport, Verdict } from "../answers/index.ts";
import type { WalkS } from "../editor/index.ts";
import type { Plan } from "../plan/index.ts";
import type { Desk } from "../session/index.ts";

/** One page of paper: a complete SVG document, its size, and what it is in words. */
export interface PaperPage {
  readonly svg: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly name: string;
}

/** What can be printed: a name for the chooser and words on what it is for. */
export interface PaperKind {
  readonly id: string;
  readonly name: string;
  readonly purpose: string;
  /** True where pages for being late belong to it. */
  readonly late?: boolean;
}

/**
 * Paper as the views see it; `verdict` is that of `plan` with its own schedule, `day` its printed moments, `shed` its shed order
 * when there is one, `chances` those of the same day; null where they are not known.
 */
export interface PaperPort {
  readonly kinds: readonly PaperKind[];
  pages(
    kind: string,
    plan: Plan,
    verdict: Verdict,
    day: PrintedDay,
    shed: ShedReport | undefined,
    chances: ChancesReport | null,
  ): readonly PaperPage[];
  /** What somebody who prints pages of this kind may look for there in vain: words after "On paper:", and tasks it is about. */
  unsaid(kind: string, plan: Plan): readonly { readonly words: string; readonly tasks: readonly string[] }[];
  /** The same pages as a PDF file's bytes. */
  pdf(
    kind: string,
    plan: Plan,
    verdict: Verdict,
    day: PrintedDay,
    shed: ShedReport | undefined,
    chances: ChancesReport | null,
  ): Promise<Uint8Array>;
}

/** What every view may ask for; wired once, at the start. */
export interface Services {
  readonly desk: Desk;
  /** Sun elevation over the site, degrees; null where it is unknown. */
  readonly sunDeg: (plan: Plan, atS: number) => number | null;
  /** Walking times between the plan's places, at the planned speed. */
  readonly walkS: (plan: Plan) => WalkS;
  /** Where the theme is remembered; may fail silently. */
  readonly memory: { get(key: string): string | null; set(key: string, value: string): boolean };
}

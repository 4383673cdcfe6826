import type { PrintedDay, Verdict } from "../../answers/index.ts";
import type { CrewMember, Plan } from "../../plan/index.ts";
import { touchdownMs } from "../../words/index.ts";
import { crewEvas, nameOf } from "./crewday.ts";
import { bound, type Heading, type Leaf, leaves, paragraph } from "./cuff.ts";
import { emergencyLeaves } from "./emergency.ts";
import { glanceLeaves } from "./glance.ts";
import { printedDay } from "./leaving/printedday.ts";
import type { Page, Paper } from "./page.ts";
import { noShedLeaves, shedLeaves, type ShedTables } from "./shedpage.ts";
import { taskLeaves } from "./taskpage.ts";

export interface BookletOptions {
  /** Crew ids whose booklets are wanted, in the plan's order; everybody when left out. */
  readonly crew?: readonly string[] | undefined;
  /** The printed moments of `plan`, where they are worked out already. */
  readonly day?: PrintedDay | undefined;
  /** The shed order of the plan's own schedule; without it a page says that there is none. */
  readonly shed?: ShedTables | undefined;
}

/**
 * Cuff checklists, one booklet after the other, each page cut to size; `impose` puts them on sheets. For each EVA: at a glance, one task a page, what to drop if late, the emergency page.
 * `verdict` must be that of `plan` with its own schedule. The same input gives the same paper.
 */
export function booklets(plan: Plan, verdict: Verdict, options: BookletOptions = {}): Paper {
  const members = plan.crew.filter((member) => options.crew?.includes(member.id) ?? true);
  const day = options.day ?? printedDay(plan);
  const pages = members.flatMap((member) => bookletPages(plan, verdict, day, member, options.shed));
  return {
    title: `${plan.title}: cuff checklists`,
    epochMs: touchdownMs(plan),
    pages: pages.length > 0 ? pages : nobody(plan),
  };
}

function bookletPages(
  plan: Plan,
  verdict: Verdict,
  day: PrintedDay,
  member: CrewMember,
  shed: ShedTables | undefined,
): Page[] {
  const crew = nameOf(plan.crew, member.id);
  const heading = (eva: string): Heading => ({ crew, eva, title: plan.title, part: member.id });
  const parts = crewEvas(plan, verdict, day, member);
  if (parts.length === 0) {
    return bound(
      leaves(heading("no EVA"), "no EVA", [
        paragraph(`${crew} goes on no EVA of this plan.`, { sizesPt: [16, 14], bold: true }),
      ]),
    );
  }
  return bound(
    parts.flatMap((part): Leaf[] => {
      const head = heading(nameOf(plan.evas, part.eva.id));
      return [
        ...glanceLeaves(plan, verdict, part, head),
        ...part.stops.flatMap((_, i) => taskLeaves(plan, part, i, head)),
        ...(shed ? shedLeaves(plan, part, shed, head) : part.stops.length > 0 ? noShedLeaves(head) : []),
        ...emergencyLeaves(plan, verdict, part, head),
      ];
    }),
  );
}

function nobody(plan: Plan): Page[] {
  return bound(
    leaves({ crew: "Nobody", eva: "no EVA", title: plan.title, part: "nobody" }, "no crew", [
      paragraph("This plan has no crew to print for.", { sizesPt: [16], bold: true }),
    ]),
  );
}

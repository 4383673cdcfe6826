import type { PrintedDay, Verdict } from "../../answers/index.ts";
import { type CrewMember, type Plan, shortFingerprint, stillToGive } from "../../plan/index.ts";
import { utcYearDay } from "../../words/index.ts";
import { placedCount } from "../planstate.ts";
import { fileMs } from "./filems.ts";
import { crewEvas, nameOf } from "./crewday.ts";
import { bound, type Heading, type Leaf, leaves, paragraph } from "./cuff.ts";
import { emergencyLeaves } from "./emergency.ts";
import { egressLeaves, ingressLeaves } from "./gates.ts";
import { glanceLeaves } from "./glance.ts";
import { type Known, knownOf } from "./known.ts";
import type { LateTables } from "./late.ts";
import { printedDay } from "./leaving/printedday.ts";
import type { Page, Paper } from "./page.ts";
import { taskLeaves } from "./taskpage.ts";

export interface BookletOptions {
  /** Crew ids whose booklets are wanted, in the plan's order; everybody when left out. */
  readonly crew?: readonly string[] | undefined;
  /** The printed moments of `plan`, where they are worked out already. */
  readonly day?: PrintedDay | undefined;
  /** The late table of the plan's own schedule; without it pages say that there is none. */
  readonly lateTable?: LateTables | undefined;
  /** The moment of printing, milliseconds UTC since 1970; without it no page says when. */
  readonly printedMs?: number | undefined;
}

/**
 * Cuff booklets, one for each crew member and EVA, numbered by itself, each page cut to size (`impose` puts them on sheets): at a glance, the egress, one task a page, the ingress, and the
 * emergency page as back cover. `verdict` must be that of `plan` with its own schedule. The same input gives the same paper.
 */
export function booklets(plan: Plan, verdict: Verdict, options: BookletOptions = {}): Paper {
  const members = plan.crew.filter((member) => options.crew?.includes(member.id) ?? true);
  const known = knownOf(plan, verdict, options.day ?? printedDay(plan), options.lateTable);
  const state = stateOf(plan, options.printedMs);
  const pages = members.flatMap((member) => bookletsOf(known, member, state));
  return {
    title: `${plan.title}: cuff checklists`,
    epochMs: fileMs(plan),
    pages: pages.length > 0 ? pages : nobody(state),
  };
}

function bookletsOf(known: Known, member: CrewMember, state: State): Page[] {
  const { plan, verdict, day } = known;
  const crew = nameOf(plan.crew, member.id);
  const heading = (eva: string, part: string): Heading => ({ crew, eva, part, ...state });
  const parts = crewEvas(plan, verdict, day, member);
  if (parts.length === 0) {
    const words = `${crew} goes on no EVA of this plan.`;
    return bound(
      leaves(heading("no EVA", member.id), "no EVA", "", [paragraph(words, { sizesPt: [16, 14] })]),
    );
  }
  return parts.flatMap((part) => {
    const head = heading(nameOf(plan.evas, part.eva.id), `${member.id} ${part.eva.id}`);
    const whole: Leaf[] = [
      ...glanceLeaves(known, part, head),
      ...egressLeaves(known, part, head),
      ...part.stops.flatMap((_, i) => taskLeaves(known, part, i, head)),
      ...ingressLeaves(known, part, head),
      ...emergencyLeaves(known, part, head),
    ];
    return bound(whole);
  });
}

type State = Pick<Heading, "title" | "state">;

/** What stands at the foot of every page of the plan and its state. */
function stateOf(plan: Plan, printedMs: number | undefined): State {
  const { name } = plan.revision;
  const open = stillToGive(plan).length;
  const parts = [
    ...(name === undefined ? [] : [name]),
    shortFingerprint(plan),
    placedCount(plan),
    ...(open === 0 ? [] : [`${open} not given`]),
    ...(printedMs === undefined ? [] : [utcYearDay(printedMs, 0)]),
  ];
  return { title: plan.title, state: parts.join(" · ") };
}

function nobody(state: State): Page[] {
  const heading = { crew: "Nobody", eva: "no EVA", part: "nobody", ...state };
  return bound(
    leaves(heading, "no crew", "", [paragraph("This plan has no crew to print for.", { sizesPt: [16] })]),
  );
}

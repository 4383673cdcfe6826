import { fileMs } from "../filems.ts";
import type { Paper } from "../page.ts";
import type { Body } from "./body.ts";
import { consoleBodies } from "./console.ts";
import { flightRulesBody } from "./flightrules.ts";
import { type SheetFormat, sheetsOf, type SheetStamp } from "./frame.ts";
import { gaugeBody } from "./gauges.ts";
import { givenOf, type SheetFacts, type SheetGiven } from "./given.ts";
import { lateBody } from "./late.ts";
import { leftOutBody } from "./leftout.ts";
import { manifestBody } from "./manifest.ts";
import { debriefBody, scenarioBody } from "./rehearsal.ts";
import { siteMapBody } from "./sitemap.ts";
import { stationBodies } from "./stations.ts";
import { stowageBody } from "./stowage.ts";

/** What has to be worked out before a sheet says all that it can. */
export type SheetNeed = "late table" | "reasons" | "walks" | "rehearsal";

export interface SheetKind {
  readonly name: string;
  readonly purpose: string;
  readonly needs: readonly SheetNeed[];
  bodies(given: SheetGiven): readonly Body[];
}

const ONE = (body: (given: SheetGiven) => Body) => (given: SheetGiven) => [body(given)];

/** Every kind of sheet by the word that asks for it. */
export const SHEET_KINDS = {
  console: {
    name: "Console timeline",
    purpose: "Each EVA minute by minute, with gauges and blanks for what is read.",
    needs: [],
    bodies: consoleBodies,
  },
  gauges: {
    name: "Gauges",
    purpose: "What every suit should read when a task ends.",
    needs: [],
    bodies: ONE(gaugeBody),
  },
  late: {
    name: "If late",
    purpose: "What is left out when a task is left late.",
    needs: ["late table"],
    bodies: ONE(lateBody),
  },
  stations: {
    name: "Stations",
    purpose: "Tasks by place, with a map of the ways.",
    needs: ["walks"],
    bodies: stationBodies,
  },
  site: {
    name: "Site map",
    purpose: "Places, keep-outs and contours.",
    needs: ["walks"],
    bodies: ONE(siteMapBody),
  },
  stowage: {
    name: "Tools",
    purpose: "What goes out when, who carries it, what returns.",
    needs: [],
    bodies: ONE(stowageBody),
  },
  manifest: {
    name: "Manifest",
    purpose: "Bags, samples and cases against what may be lifted.",
    needs: [],
    bodies: ONE(manifestBody),
  },
  "left-out": {
    name: "Left out",
    purpose: "What is not on the day, and why.",
    needs: ["reasons"],
    bodies: ONE(leftOutBody),
  },
  rules: {
    name: "Flight rules",
    purpose: "Value, source and owner of every rule.",
    needs: [],
    bodies: ONE(flightRulesBody),
  },
  scenario: {
    name: "Scenario",
    purpose: "What is thrown into a rehearsal, for whoever leads it.",
    needs: ["rehearsal"],
    bodies: ONE(scenarioBody),
  },
  debrief: {
    name: "Debrief",
    purpose: "Planned against actual, after a rehearsal.",
    needs: ["rehearsal"],
    bodies: ONE(debriefBody),
  },
} as const satisfies Readonly<Record<string, SheetKind>>;

export type SheetKindId = keyof typeof SHEET_KINDS;

/** Sheets of a kind. The same input gives the same paper; `stamp` says of which plan, revision and date they are. */
export function sheetPaper(
  id: SheetKindId,
  facts: SheetFacts,
  stamp: SheetStamp,
  format: SheetFormat,
): Paper {
  const kind: SheetKind = SHEET_KINDS[id];
  const bodies = kind.bodies(givenOf(facts));
  return {
    title: `${facts.plan.title}: ${kind.name}`,
    epochMs: fileMs(facts.plan),
    pages: sheetsOf(bodies.length > 0 ? bodies : [nobody(kind)], stamp, format),
  };
}

/** The sheet of a day on which nobody goes out. */
function nobody({ name }: SheetKind): Body {
  return {
    title: name,
    under: [],
    key: [],
    wide: false,
    sections: [{ kind: "words", text: "Nobody goes out." }],
  };
}

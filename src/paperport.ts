import type { ChancesReport, PrintedDay, ShedReport, Verdict } from "./answers/index.ts";
import { booklets, daySheet, impose, type Paper, toSvgPages, unsaidOnCuffs } from "./exchange/paper/index.ts";
import { facesFromServer } from "./screens/paper/faces.ts";
import type { Plan } from "./plan/index.ts";
import type { PaperPort } from "./screens/services.ts";

/** What paper the paper screen is given. Fetched with that screen: laying out pages takes more than the rest of the program. */

const ONE_SIDED = { duplex: false, order: "reading", rings: false } as const;

function paperOf(
  kind: string,
  plan: Plan,
  verdict: Verdict,
  day: PrintedDay,
  shed: ShedReport | undefined,
  chances: ChancesReport | null,
): Paper {
  switch (kind) {
    case "day-a4":
      return daySheet(plan, verdict, "a4", day, chances);
    case "day-letter":
      return daySheet(plan, verdict, "letter", day, chances);
    case "cuff-a4":
      return impose(booklets(plan, verdict, { day, shed }), { ...ONE_SIDED, sheet: "a4" });
    case "cuff-letter":
      return impose(booklets(plan, verdict, { day, shed }), { ...ONE_SIDED, sheet: "letter" });
    default:
      return booklets(plan, verdict, { day, shed });
  }
}

export const paper: PaperPort = {
  kinds: [
    {
      id: "cuff",
      name: "Cuff checklists",
      purpose: "One booklet a crew member, one task a page, cut to size.",
      late: true,
    },
    {
      id: "cuff-a4",
      name: "Cuff on A4",
      purpose: "Four cuff pages to an A4 sheet, with cut marks.",
      late: true,
    },
    {
      id: "cuff-letter",
      name: "Cuff on Letter",
      purpose: "Four cuff pages to a Letter sheet, with cut marks.",
      late: true,
    },
    { id: "day-a4", name: "Day on A4", purpose: "The whole day on one sheet." },
    { id: "day-letter", name: "Day on Letter", purpose: "The whole day on one sheet." },
  ],
  pages(kind, plan, verdict, day, shed, chances) {
    const made = paperOf(kind, plan, verdict, day, shed, chances);
    return toSvgPages(made).map((svg, i) => ({ ...made.pages[i]!, svg }));
  },
  unsaid: (kind, plan) => (kind.startsWith("cuff") ? unsaidOnCuffs(plan) : []),
  // The PDF writer is as large as the rest of the app: it is fetched when somebody asks for a file.
  async pdf(kind, plan, verdict, day, shed, chances) {
    const { toPdf } = await import("./exchange/paper/pdf.ts");
    return toPdf(paperOf(kind, plan, verdict, day, shed, chances), facesFromServer);
  },
};

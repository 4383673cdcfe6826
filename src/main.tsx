import "@fontsource-variable/encode-sans/wdth.css";
import type { ChancesReport, PrintedDay, ShedReport, Verdict } from "./answers/index.ts";
import "./screens/theme/tokens.css";
import "./screens/theme/base.css";
import "./screens/shell/shell.css";
import "./screens/day/day.css";
import "./screens/day/legend.css";
import "./screens/paper/paper.css";
import "./screens/setup/setup.css";
import "./screens/task/task.css";
import "./screens/theme/beside.css";
import "./screens/why/why.css";
import "./screens/variants/variants.css";
import "./screens/odds/odds.css";
import "./screens/odds/late.css";
import "./screens/odds/curve.css";
import "./screens/site/site.css";
import "./screens/outset/outset.css";
import "./screens/rehearsal/rehearsal.css";
import "./screens/aside/aside.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { judgeFor } from "./check/index.ts";
import { spareEngine, startEngine } from "./engine/browser.ts";
import { booklets, daySheet, type Paper, toSvgPages, unsaidOnCuffs } from "./exchange/index.ts";
import { moonSun } from "./physics/index.ts";
import type { Plan } from "./plan/index.ts";
import { type Walks, walksOf } from "./terrain/index.ts";
import {
  browserArchive,
  createDesk,
  rehearsalWork,
  siteWork,
  systemClock,
  systemId,
} from "./session/index.ts";
import { App } from "./screens/app.tsx";
import { createLook } from "./screens/look.ts";
import { Setup } from "./screens/setup/setup.tsx";
import { createSiteLook } from "./screens/site/sitelook.ts";
import { RehearsalView } from "./screens/rehearsal/rehearsalview.tsx";
import { SiteView } from "./screens/site/siteview.tsx";
import { TaskPanel } from "./screens/task/panel.tsx";
import type { PaperPort, Services } from "./screens/services.ts";

/** The only wiring: which engine, archive, paper and sky the desk and the views are given. */

/** A tablet held upright, as the style sheets have it. */
const UPRIGHT = "(max-width: 60rem)";
const READY = ["demo", "small", "large"];

const engine = startEngine();
const desk = createDesk({
  engine,
  spare: spareEngine(),
  judgeFor,
  archive: browserArchive(),
  clock: systemClock,
  newId: systemId,
  async readyText(name) {
    const answer = await fetch(`plans/${name}.json`);
    if (!answer.ok) throw new Error(`plans/${name}.json: ${answer.status} ${answer.statusText}`);
    return answer.text();
  },
});

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
      return booklets(plan, verdict, { size: "a4", day, shed });
    case "cuff-letter":
      return booklets(plan, verdict, { size: "letter", day, shed });
    default:
      return booklets(plan, verdict, { size: "cuff", day, shed });
  }
}

const paper: PaperPort = {
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
    return toPdf(paperOf(kind, plan, verdict, day, shed, chances));
  },
};

/** What walking times follow from. */
const WALKING = ["site", "rules", "ground", "suits", "crew", "evas"] as const;
let walking: { readonly plan: Plan; readonly walks: Walks } | null = null;

/** The ways of a plan as judge and packer have them, laid out once for all plans with the same ground. */
function walksFor(plan: Plan): Walks {
  const known = walking;
  if (known && WALKING.every((key) => known.plan[key] === plan[key])) return known.walks;
  const walks = walksOf(plan);
  walking = { plan, walks };
  return walks;
}

const services: Services = {
  desk,
  paper,
  walkS: (plan) => walksFor(plan).secondsS,
  sunDeg(plan, atS) {
    if (plan.body.ephemeris !== "moon") return null;
    const { latDeg, lonDeg, elevationM } = plan.site;
    const observer = { latDeg, lonDeg, radiusM: plan.body.radiusM + elevationM };
    return moonSun(Date.parse(plan.stay.touchdownUtc) + atS * 1000, observer).elevationDeg;
  },
  // A browser may forbid its store; the theme is then that of the system each time.
  memory: {
    get(key) {
      try {
        return localStorage.getItem(`lopeline-${key}`);
      } catch {
        return null;
      }
    },
    set(key, value) {
      try {
        localStorage.setItem(`lopeline-${key}`, value);
        return true;
      } catch {
        return false;
      }
    },
  },
};

const remembered = services.memory.get("theme");
const darkSystem = window.matchMedia("(prefers-color-scheme: dark)").matches;
const theme = remembered === "dark" || remembered === "light" ? remembered : darkSystem ? "dark" : "light";
document.documentElement.dataset["theme"] = theme;

/** Height of bench and findings at the start; on an upright tablet the details stand below them. */
function dockPx(): number {
  const upright = window.matchMedia(UPRIGHT).matches;
  return Math.round(upright ? window.innerHeight * 0.34 : Math.min(240, window.innerHeight * 0.215));
}

async function begin(): Promise<void> {
  const asked = new URLSearchParams(location.search).get("plan");
  const restored = await desk.restore();
  if (asked !== null && READY.includes(asked)) await desk.openReady(asked);
  else if (!restored) {
    await desk.openReady("demo");
    look.setState({ greeting: true });
  }
}

const look = createLook(theme, dockPx());
const rehearsing = rehearsalWork(desk, {
  engine,
  judgeFor,
  clock: systemClock,
  walksOf: walksFor,
  memory: services.memory,
});
const site = <SiteView site={siteWork(desk, engine)} siteLook={createSiteLook()} />;
// A tablet that is turned has another share for the line.
window.matchMedia(UPRIGHT).addEventListener("change", () => look.setState({ dockPx: dockPx() }));

window.addEventListener("pagehide", () => {
  rehearsing.hold();
  void desk.saveNow();
});
// What is not in the store yet would be lost: the browser asks before it leaves the page.
window.addEventListener("beforeunload", (event) => {
  const { status } = desk.state.getState().saving;
  if (status === "waiting" || status === "saving" || status === "failed") event.preventDefault();
});
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "hidden") void desk.saveNow();
});

const root = document.getElementById("root");
if (!root) throw new Error("the page has no root element");
await begin();
createRoot(root).render(
  <StrictMode>
    <App
      services={services}
      look={look}
      setup={<Setup />}
      site={site}
      rehearsal={<RehearsalView work={rehearsing} />}
      details={<TaskPanel />}
    />
  </StrictMode>,
);

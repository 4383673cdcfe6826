import "@fontsource-variable/encode-sans/wdth.css";
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
import "./screens/shelf/shelf.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { judgeFor } from "./check/index.ts";
import { spareEngine, startEngine } from "./engine/browser.ts";
import { moonSun } from "./physics/index.ts";
import { keepProgram } from "./newerversion.ts";
import type { Plan } from "./plan/index.ts";
import { type Walks, walksOf } from "./terrain/index.ts";
import {
  browserArchive,
  browserWindows,
  createDesk,
  type RehearsalWork,
  systemClock,
  systemId,
} from "./session/index.ts";
import { App, fetchScreens } from "./screens/app.tsx";
import { createLook, THEMES } from "./screens/look.ts";
import { keepMapChoice } from "./screens/day/mapbeside.ts";
import { fetched } from "./screens/ondemand.tsx";
import type { Services } from "./screens/services.ts";

/** The only wiring: which engine, archive, paper and sky the desk and the views are given. */

const READY = ["demo", "small", "large"];

/** Said on the desk once there is one. */
const told = (words: string): void => desk.tell(words);
const engine = startEngine(told);
const archive = browserArchive();
const windows = browserWindows();
const desk = createDesk({
  engine,
  spare: spareEngine(told),
  judgeFor,
  archive,
  windows,
  clock: systemClock,
  newId: systemId,
  async readyText(name) {
    const answer = await fetch(`plans/${name}.json`);
    if (!answer.ok) throw new Error(`plans/${name}.json: ${answer.status} ${answer.statusText}`);
    return answer.text();
  },
});

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
const theme = THEMES.find(({ id }) => id === remembered)?.id ?? (darkSystem ? "dark" : "light");
document.documentElement.dataset["theme"] = theme;

async function begin(): Promise<void> {
  const asked = new URLSearchParams(location.search).get("plan");
  const restored = await desk.restore();
  if (asked !== null && READY.includes(asked)) {
    await desk.openReady(asked);
    // Loaded anew, the page shows what became of it.
    history.replaceState(null, "", location.pathname);
  } else if (!restored) {
    await desk.openReady("demo");
    look.setState({ greeting: true });
  }
}

const look = createLook(theme);
keepMapChoice(look, services.memory);
/** The rehearsal, once its screen has been fetched. */
let rehearsing: RehearsalWork | null = null;

/** Screens with code of their own, each fetched when it is shown for the first time, or in a quiet moment. */
const screens = {
  paper: fetched(async () => {
    const [{ PaperView }, { paperPort }] = await Promise.all([
      import("./screens/paper/paperview.tsx"),
      import("./paperport.ts"),
    ]);
    const paper = paperPort({
      engine,
      sunDeg: services.sunDeg,
      rehearsed() {
        const day = rehearsing?.state.getState().day;
        const debrief = rehearsing?.debrief();
        return day && debrief ? { plan: day.plan, run: day.rehearsal, debrief } : null;
      },
    });
    return () => <PaperView paper={paper} />;
  }),
  setup: fetched(async () => {
    const [{ Setup }, { PaperLines }, { lineUses }] = await Promise.all([
      import("./screens/setup/setup.tsx"),
      import("./screens/setup/paperlines.tsx"),
      import("./exchange/paper/oneline.ts"),
    ]);
    return () => (
      <PaperLines value={lineUses}>
        <Setup />
      </PaperLines>
    );
  }),
  site: fetched(async () => {
    const [{ SiteView }, { createSiteLook, forgetWithPlan }, { siteWork }] = await Promise.all([
      import("./screens/site/siteview.tsx"),
      import("./screens/site/sitelook.ts"),
      import("./session/site.ts"),
    ]);
    const site = siteWork(desk, engine);
    const siteLook = createSiteLook();
    forgetWithPlan(desk, siteLook);
    return () => <SiteView site={site} siteLook={siteLook} />;
  }),
  map: fetched(async () => {
    const [{ BesideMap }, { createSiteLook, forgetWithPlan }, { siteWork }] = await Promise.all([
      import("./screens/site/beside/besidemap.tsx"),
      import("./screens/site/sitelook.ts"),
      import("./session/site.ts"),
    ]);
    const site = siteWork(desk, engine);
    // A look of its own: in less room less is read, and it is moved apart from the screen of the site.
    const siteLook = createSiteLook(["times", "stocks"]);
    forgetWithPlan(desk, siteLook);
    return () => <BesideMap site={site} siteLook={siteLook} />;
  }),
  rehearsal: fetched(async () => {
    const [{ RehearsalView }, { rehearsalWork }] = await Promise.all([
      import("./screens/rehearsal/rehearsalview.tsx"),
      import("./session/rehearsing.ts"),
    ]);
    const work = rehearsalWork(desk, {
      engine,
      judgeFor,
      clock: systemClock,
      walksOf: walksFor,
      archive,
      windows,
      memory: services.memory,
    });
    // The day that was under way is there at once when the screen is.
    await work.restore();
    rehearsing = work;
    return () => <RehearsalView work={work} />;
  }),
  details: fetched(async () => {
    const [{ TaskPanel }, { PaperLines }, { lineUses }] = await Promise.all([
      import("./screens/task/panel.tsx"),
      import("./screens/setup/paperlines.tsx"),
      import("./exchange/paper/oneline.ts"),
    ]);
    return () => (
      <PaperLines value={lineUses}>
        <TaskPanel />
      </PaperLines>
    );
  }),
};

window.addEventListener("pagehide", () => {
  rehearsing?.hold();
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
      setup={<screens.setup.Screen />}
      site={<screens.site.Screen />}
      rehearsal={<screens.rehearsal.Screen />}
      paper={<screens.paper.Screen />}
      details={<screens.details.Screen />}
      map={<screens.map.Screen />}
    />
  </StrictMode>,
);
// In a quiet moment, so that every screen is there when it is asked for, and when the network is gone.
setTimeout(() => {
  void Promise.all([fetchScreens(), ...Object.values(screens).map((screen) => screen.fetch())]);
}, 2000);

// While it is developed the program changes under the page; only a build is kept.
if (import.meta.env.PROD)
  void keepProgram((start) => look.setState({ newerVersion: () => void desk.saveNow().then(start) }));

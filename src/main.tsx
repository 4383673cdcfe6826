import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { spareEngine, startEngine } from "./engine/browser.ts";
import { archive, firstTheme, memory, windows } from "./kept.ts";
import { keepProgram } from "./newerversion.ts";
import type { NamedWays } from "./judging.ts";
import type { Plan } from "./plan/index.ts";
import {
  browserHandles,
  createSession,
  type JudgeFor,
  type RehearsalWork,
  systemClock,
  systemId,
} from "./session/index.ts";
import { App, fetchScreens } from "./screens/app.tsx";
import { readying } from "./readying.ts";
import { READY, readyText } from "./readytext.ts";
import { createViewStore } from "./screens/viewstate.ts";
import { keepMapChoice } from "./screens/day/mapbeside.ts";
import { fetched } from "./screens/ondemand.tsx";
import { FirstFrame } from "./screens/opening/firstframe.tsx";
import type { Services } from "./screens/services.ts";

/** The only wiring: which engine, archive, paper and sky the session and the screens are given. */

/** Said in the session once there is one. */
const tell = (words: string): void => session.tell(words);
const engine = startEngine(tell);

const container = document.getElementById("root");
if (!container) throw new Error("the page has no root element");
const root = createRoot(container);

/** Nothing of a plan is on screen yet, its first picture, or the whole program. */
let shown: "nothing" | "frame" | "all" = "nothing";
const ready = readying(engine, async (plan, making) => {
  if (shown === "all") view.setState({ making });
  else if (making) root.render(<FirstFrame plan={plan} making={making} />);
  if (shown !== "nothing") return;
  shown = "frame";
  await painted();
});
const judgeFor: JudgeFor = (plan) => ready.judging().judgeFor(plan);

/** What was drawn is on screen, or will not be for a while: a page in the background paints nothing. */
async function painted(): Promise<void> {
  const frames = new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next)));
  await Promise.race([frames, new Promise((next) => setTimeout(next, 200))]);
}

const session = createSession({
  engine,
  spare: spareEngine(tell),
  judgeFor,
  makeReady: ready.makeReady,
  archive,
  windows,
  clock: systemClock,
  handles: browserHandles(),
  author: { get: () => memory.get("author") ?? "", set: (name) => void memory.set("author", name) },
  newId: systemId,
  readyText,
});

/** What walking times follow from. */
const WALKING = ["site", "rules", "ground", "suits", "crew", "evas"] as const;
let walking: { readonly plan: Plan; readonly walks: NamedWays } | null = null;

/** The ways of a plan as judge and packer have them, laid out once for all plans with the same ground. */
function walksFor(plan: Plan): NamedWays {
  const known = walking;
  if (known && WALKING.every((key) => known.plan[key] === plan[key])) return known.walks;
  const walks = ready.judging().walksOf(plan);
  walking = { plan, walks };
  return walks;
}

const services: Services = {
  session,
  walkS: (plan) => walksFor(plan).secondsS,
  sunDeg: (plan, atS) => ready.judging().sunDegOver(plan, atS),
  memory,
};

/** What is said where a part of the program cannot be had. */
function Unbegun({ why }: { readonly why: string }) {
  return (
    <div className="shell-unfetched" role="alert">
      <p>
        <b>Problem.</b> Lopeline cannot start: {why}. What was saved in this browser is as it was.
      </p>
      <button type="button" onClick={() => location.reload()}>
        Load the page again
      </button>
    </div>
  );
}

async function begin(): Promise<void> {
  const wanted = new URLSearchParams(location.search).get("plan");
  const restored = await session.restore();
  if (wanted !== null && READY.includes(wanted)) {
    await session.openReady(wanted);
    // Loaded anew, the page shows what became of it.
    history.replaceState(null, "", location.pathname);
  } else if (!restored) {
    await session.openReady("demo");
    view.setState({ greeting: true });
  }
  if (session.state.getState().plan !== session.state.getInitialState().plan) return;
  // Nothing could be opened: there is a blank plan, and it is judged like any other.
  await ready.makeReady(session.state.getState().plan);
  session.newPlan();
}

const view = createViewStore(firstTheme());
keepMapChoice(view, services.memory);
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
        if (!day || !debrief) return null;
        return { plan: day.plan, run: day.rehearsal, debrief, planned: day.planned, verdict: day.verdict };
      },
    });
    return () => <PaperView paper={paper} />;
  }),
  setup: fetched(async () => {
    const [{ Setup }, { PaperLines }, { lineUses }] = await Promise.all([
      import("./screens/setup/setup.tsx"),
      import("./screens/fields/paperlines.tsx"),
      import("./exchange/paper/oneline.ts"),
    ]);
    return () => (
      <PaperLines value={lineUses}>
        <Setup />
      </PaperLines>
    );
  }),
  site: fetched(async () => {
    const [{ SiteView }, { createSiteViewStore, forgetWithPlan }, { siteWork }] = await Promise.all([
      import("./screens/site/siteview.tsx"),
      import("./screens/site/siteviewstate.ts"),
      import("./session/site.ts"),
    ]);
    const site = siteWork(session, engine);
    const siteView = createSiteViewStore();
    forgetWithPlan(session, siteView);
    return () => <SiteView site={site} siteView={siteView} />;
  }),
  map: fetched(async () => {
    const [{ BesideMap }, { createSiteViewStore, forgetWithPlan }, { siteWork }] = await Promise.all([
      import("./screens/beside/besidemap.tsx"),
      import("./screens/site/siteviewstate.ts"),
      import("./session/site.ts"),
    ]);
    const site = siteWork(session, engine);
    // A look of its own: in less room less is read, and it is moved apart from the screen of the site.
    const siteView = createSiteViewStore(["times", "stocks"]);
    forgetWithPlan(session, siteView);
    return () => <BesideMap site={site} siteView={siteView} />;
  }),
  rehearsal: fetched(async () => {
    const [{ RehearsalView }, { rehearsalWork }] = await Promise.all([
      import("./screens/rehearsal/rehearsalview.tsx"),
      import("./session/rehearsing.ts"),
    ]);
    const work = rehearsalWork(session, {
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
      import("./screens/fields/paperlines.tsx"),
      import("./exchange/paper/oneline.ts"),
      // A task's fields are written as the cells of the tables are.
      import("./screens/setup/setup.css"),
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
  void session.saveNow();
});
// What is not in the store yet would be lost: the browser asks before it leaves the page.
window.addEventListener("beforeunload", (event) => {
  if (session.atStake) event.preventDefault();
});
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "hidden") void session.saveNow();
});

/** Opens what was open, and then draws the program over its first picture. */
async function start(): Promise<void> {
  try {
    await begin();
  } catch (error) {
    root.render(<Unbegun why={error instanceof Error ? error.message : "unknown"} />);
    return;
  }
  shown = "all";
  root.render(
    <StrictMode>
      <App
        services={services}
        view={view}
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
}

// Not awaited here: parts that are fetched meanwhile stand on this one, and wait until it has run to its end.
void start();

// While it is developed the program changes under the page; only a build is kept.
if (import.meta.env.PROD)
  void keepProgram((start) => view.setState({ newerVersion: () => void session.saveNow().then(start) }));

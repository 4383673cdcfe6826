import { type ReactNode, useEffect, useMemo, useState } from "react";
import { framing } from "../editor/index.ts";
import { mendOutcome } from "../session/index.ts";
import { AppContext, useApp, useSession, useView } from "./context.ts";
import { DayView } from "./day/dayview.tsx";
import { spokenDay } from "./day/speech.ts";
import { evaSpan, limitsOf, windowOnceOut } from "./day/windowing.ts";
import { takeUpDrafts } from "./kept.ts";
import { keepMinute, type ViewStore } from "./viewstate.ts";
import { Greeting } from "./firststeps/greeting.tsx";
import { MakingReady } from "./opening/makingready.tsx";
import { fetched, OnDemand } from "./ondemand.tsx";
import { Safety } from "./parts/safety.tsx";
import { quarantineCommand } from "./quarantine/command.ts";
import { FirstSteps } from "./firststeps/firststeps.tsx";
import type { Services } from "./services.ts";
import { Following } from "./shelf/following.tsx";
import { Header } from "./shell/header.tsx";
import { NewerVersion, Notices, Refused, Spoken } from "./shell/messages.tsx";
import { shellKeys } from "./shell/shellwork.ts";
import { TaskMenu } from "./shell/taskmenu.tsx";
import { FiguresPlace } from "./toprow.ts";
import { whyWork } from "./why/whywork.ts";

const odds = fetched(async () => (await import("./odds/oddsview.tsx")).OddsView);
const shelf = fetched(async () => (await import("./shelf/shelf.tsx")).Shelf);
const quarantine = fetched(async () => (await import("./quarantine/quarantine.tsx")).Quarantine);
const importing = fetched(async () => (await import("./import/importwindow.tsx")).ImportWindow);
const exporting = fetched(async () => (await import("./export/exportdialog.tsx")).ExportDialog);
const commands = fetched(async () => (await import("./shell/commandlist.tsx")).CommandList);
const keys = fetched(async () => (await import("./day/keys.tsx")).Keys);
const changedFile = fetched(async () => (await import("./shell/changedfile.tsx")).ChangedFile);
const mended = fetched(async () => (await import("./mended/mended.tsx")).Mended);
const why = fetched(async () => (await import("./why/whypanel.tsx")).WhyPanel);
const variants = fetched(async () => (await import("./variants/variantsview.tsx")).VariantsView);

/** Screens that are wired outside: the tables, the map, the clock, the pages and the chosen task. */
interface Wired {
  readonly setup: ReactNode;
  readonly site: ReactNode;
  readonly rehearsal: ReactNode;
  readonly paper: ReactNode;
  readonly details: ReactNode;
  readonly map: ReactNode;
}

/** The whole program on screen. */
export function App(props: Wired & { readonly services: Services; readonly view: ViewStore }) {
  const { services, view, ...wired } = props;
  const app = useMemo(() => ({ ...services, view }), [services, view]);
  return (
    <AppContext value={app}>
      <Screens {...wired} />
    </AppContext>
  );
}

/** Fetches what is not drawn with the day, so that it is there when it is asked for. */
export async function fetchScreens(): Promise<void> {
  await Promise.all(
    [commands, keys, changedFile, mended, why, odds, variants, shelf, quarantine, importing, exporting].map(
      (screen) => screen.fetch(),
    ),
  );
}

function Screens(props: Wired) {
  useTheme();
  useFirstView();
  useFollowers();
  const [figuresAt, setFiguresAt] = useState<HTMLElement | null>(null);
  return (
    <div className="app">
      <Header figuresAt={setFiguresAt} />
      <Following />
      <Greeting />
      <FirstSteps />
      <main className="screen">
        <FiguresPlace value={figuresAt}>
          <OpenScreen {...props} />
        </FiguresPlace>
        <TaskMenu />
      </main>
      <Safety />
      <MakingOver />
      <Notices />
      <NewerVersion />
      <Refused />
      <Windows />
      <Spoken />
    </div>
  );
}

/** The screen that is looked at. */
function OpenScreen(props: Wired) {
  const screen = useView((state) => state.screen);
  const isWhyOpen = useSession((state) => state.why !== null);
  const isMended = useSession((state) => mendOutcome(state) !== null);
  return (
    <OnDemand key={screen} name={`${screen} screen`}>
      {screen === "day" && (
        <DayView
          details={<OnDemand name="task">{props.details}</OnDemand>}
          map={<OnDemand name="map">{props.map}</OnDemand>}
        />
      )}
      {screen === "day" && isWhyOpen && <why.Screen />}
      {screen === "day" && isMended && <mended.Screen />}
      {screen === "variants" && <variants.Screen />}
      {screen === "odds" && <odds.Screen />}
      {screen === "site" && props.site}
      {screen === "rehearsal" && props.rehearsal}
      {screen === "setup" && <div className="sheet">{props.setup}</div>}
      {screen === "paper" && props.paper}
    </OnDemand>
  );
}

/** What opens over any screen. */
function Windows() {
  const changed = useView((state) => state.changedFile !== null);
  const commandsShown = useView((state) => state.listShown);
  const keysShown = useView((state) => state.keysShown);
  const shelfShown = useView((state) => state.shelfShown);
  const quarantineShown = useView((state) => state.quarantineShown);
  const exportOpen = useView((state) => state.exporting);
  const listOpen = useView((state) => state.importing !== null);
  return (
    <>
      {changed && (
        <OnDemand name="question about the file">
          <changedFile.Screen />
        </OnDemand>
      )}
      {commandsShown && (
        <OnDemand name="list of commands">
          <commands.Screen />
        </OnDemand>
      )}
      {keysShown && (
        <OnDemand name="keys and legend">
          <keys.Screen />
        </OnDemand>
      )}
      {shelfShown && (
        <OnDemand name="plans">
          <shelf.Screen />
        </OnDemand>
      )}
      {quarantineShown && (
        <OnDemand name="plans kept aside">
          <quarantine.Screen />
        </OnDemand>
      )}
      {exportOpen && (
        <OnDemand name="exports">
          <exporting.Screen />
        </OnDemand>
      )}
      {listOpen && (
        <OnDemand name="import window">
          <importing.Screen />
        </OnDemand>
      )}
    </>
  );
}

/** The page wears the theme, and the theme is remembered. */
function useTheme(): void {
  const { memory } = useApp();
  const theme = useView((state) => state.theme);
  useEffect(() => {
    document.documentElement.dataset["theme"] = theme;
    memory.set("theme", theme);
  }, [theme, memory]);
}

/** What follows the session and the view without being seen: speech, keys, the minute, drafts, commands. */
function useFollowers(): void {
  const { session, view, memory } = useApp();
  useEffect(() => spokenSteps(session, view), [session, view]);
  useEffect(() => seenOnceOut(session, view), [session, view]);
  useEffect(() => spokenSelection(session, view), [session, view]);
  useEffect(() => shellKeys(session, view), [session, view]);
  useEffect(() => keepMinute(view), [view]);
  useEffect(() => takeUpDrafts({ view, memory }), [view, memory]);
  useEffect(
    () => session.commands.add([...whyWork(session, view), quarantineCommand(view)]),
    [session, view],
  );
}

/** Another plan is being made ready behind the open one. */
function MakingOver() {
  const making = useView((state) => state.making);
  return making && <MakingReady {...making} over />;
}

/** Another plan begins with its first EVA in sight. */
function useFirstView(): void {
  const { session, view } = useApp();
  const which = useSession(
    (state) => `${state.slot}|${state.plan.stay.touchdownUtc}|${state.plan.stay.lengthS}`,
  );
  useEffect(() => {
    const { plan, verdict } = session.state.getState();
    const span = evaSpan(plan, verdict, 0) ?? { startS: 0, endS: plan.stay.lengthS };
    view.setState({
      window: framing([span], 0.03, limitsOf(plan)),
      focus: null,
      cursorS: null,
      minuteS: null,
      chosen: null,
    });
  }, [which, session, view]);
}

/** A day that comes on to an empty line is seen whole, and not in a corner of all the time there would be for it. */
function seenOnceOut(session: Services["session"], view: ViewStore): () => void {
  return session.state.subscribe((now, before) => {
    if (now.plan === before.plan || now.slot !== before.slot) return;
    const { window } = view.getState();
    const next = windowOnceOut(window, before, now);
    if (next !== window) view.setState({ window: next });
  });
}

/** Says what every step of the history has made of the day. */
function spokenSteps(session: Services["session"], view: ViewStore): () => void {
  return session.state.subscribe((now, before) => {
    if (now.plan === before.plan || now.history === before.history) return;
    const back = now.history.redo.length > before.history.redo.length;
    const step = back ? before.history.undo.at(-1) : now.history.undo.at(-1);
    const words = step ? `${back ? "Undone" : "Done"}: ${step.name}. ` : "";
    view.setState({ spoken: `${words}${spokenDay(now.plan, now.verdict)}` });
  });
}

/**
 * Says how many tasks are selected when it is none or several; a single one says itself where it is pressed, and what a step of the
 * history selects is said by the step.
 */
function spokenSelection(session: Services["session"], view: ViewStore): () => void {
  let stepping = false;
  return session.state.subscribe((now, before) => {
    if (now.plan !== before.plan) {
      stepping = true;
      queueMicrotask(() => (stepping = false));
    }
    if (now.selection === before.selection || now.preview || stepping) return;
    const count = now.selection.length;
    if (count !== 1)
      view.setState({ spoken: count === 0 ? "Nothing selected." : `${count} tasks selected.` });
  });
}

import { blockBeside, type Direction, REMOTE } from "../../dayline/index.ts";
import type { Desk } from "../../store/index.ts";
import type { Standing } from "../line/geometry.ts";
import type { Look } from "../look.ts";
import type { Hold } from "./hold.ts";
import { spokenDay } from "./speech.ts";
import type { Windowing } from "./windowing.ts";

/** One key of the day: what it is, what it does, in the words of the key list. */
export interface KeyWords {
  readonly keys: string;
  readonly does: string;
}

export const DAY_KEYS: readonly { readonly title: string; readonly keys: readonly KeyWords[] }[] = [
  {
    title: "On the day line",
    keys: [
      { keys: "← →", does: "earlier, later task of the lane" },
      { keys: "↑ ↓", does: "nearest task of the lane above, below" },
      { keys: "Enter", does: "take the task in hand" },
      { keys: "B", does: "send to the bench" },
      { keys: "P", does: "pin where it is, or unpin" },
      { keys: "C", does: "hand over to the next crew member" },
      { keys: "+ −", does: "zoom in, out" },
      { keys: "Alt+← →", does: "pan" },
      { keys: "0, 1, 2 …", does: "whole stay, first EVA, second EVA …" },
    ],
  },
  {
    title: "With a task in hand",
    keys: [
      { keys: "← →", does: "a minute earlier, later (with Shift ten)" },
      { keys: "↑ ↓", does: "lane above, below" },
      { keys: "Page Up, Page Down", does: "previous, next start that fits" },
      { keys: "Home, End", does: "first, last start that fits" },
      { keys: "B", does: "to the bench and back" },
      { keys: "Enter", does: "set down" },
      { keys: "Esc", does: "take back" },
    ],
  },
  {
    title: "Everywhere",
    keys: [
      { keys: "Ctrl+Z, Ctrl+Shift+Z", does: "undo, redo" },
      { keys: "Ctrl+O, Ctrl+S", does: "open a file, save to a file" },
      { keys: "/", does: "search the bench" },
      { keys: "?", does: "this list" },
    ],
  },
];

const WAYS: Readonly<Record<string, Direction>> = {
  ArrowLeft: "earlier",
  ArrowRight: "later",
  ArrowUp: "above",
  ArrowDown: "below",
  Home: "first",
  End: "last",
};

/** Listens for the day's keys on the whole page; the answer ends it. Fields and dialogs keep their own keys. */
export function dayKeys(
  desk: Desk,
  look: Look,
  hold: Hold,
  windows: Windowing,
  standing: () => Standing,
): () => void {
  const say = (spoken: string): void => look.setState({ spoken });

  const command = (event: KeyboardEvent): boolean => {
    const target = event.target instanceof Element ? event.target : null;
    if (target?.closest("input, textarea, select, dialog")) return false;
    if (event.ctrlKey || event.metaKey) return false;
    const onLine = target === document.body || Boolean(target?.closest("[data-line]"));
    const shown = look.getState().window;
    const middle = (shown.startS + shown.endS) / 2;
    if (event.altKey) {
      if (event.key !== "ArrowLeft" && event.key !== "ArrowRight") return false;
      windows.panShare(event.key === "ArrowLeft" ? -0.2 : 0.2);
      return true;
    }
    if (/^[0-9]$/.test(event.key)) {
      if (event.key === "0") windows.whole();
      else windows.eva(Number(event.key) - 1);
      return true;
    }
    switch (event.key) {
      case "+":
      case "=":
        windows.zoomAbout(look.getState().cursorS ?? middle, 0.7);
        return true;
      case "-":
      case "_":
        windows.zoomAbout(look.getState().cursorS ?? middle, 1 / 0.7);
        return true;
      case "/":
        document.querySelector<HTMLInputElement>("[data-bench] input[type=search]")?.focus();
        return true;
      case "Escape":
        if (!onLine || desk.state.getState().selection.length === 0) return false;
        desk.select([]);
        return true;
    }
    const way = WAYS[event.key];
    if (way && target?.closest(".block")) {
      walk(way);
      return true;
    }
    const task = target?.closest<HTMLElement>("[data-task]")?.dataset["task"];
    const chosen = task ?? (onLine ? desk.state.getState().selection[0] : undefined);
    return chosen === undefined ? false : onTask(event.key, chosen, target);
  };

  const onTask = (key: string, task: string, target: Element | null): boolean => {
    const { plan } = desk.state.getState();
    const request = plan.tasks.find((one) => one.id === task);
    const spot = plan.schedule.placements.find((one) => one.task === task);
    if (!request) return false;
    switch (key) {
      case "Enter":
      case " ": {
        if (!target?.closest("[data-task]")) return false;
        return hold.take(task, target.closest<HTMLElement>("[data-lane]")?.dataset["lane"] ?? null);
      }
      case "b":
      case "B":
      case "Delete":
        if (!spot) return false;
        focusBeside(task, spot.crew[0] ?? REMOTE);
        desk.bench([task]);
        say(
          `${request.name} is on the bench. ${spokenDay(desk.state.getState().plan, desk.state.getState().verdict)}`,
        );
        return true;
      case "p":
      case "P":
        if (!spot) return false;
        if (request.pin) desk.unpin([task]);
        else desk.pin([task]);
        say(request.pin ? `${request.name} is unpinned.` : `${request.name} is pinned where it is.`);
        return true;
      case "c":
      case "C": {
        const eva = plan.evas.find((one) => one.id === spot?.eva);
        const from = spot?.crew[0];
        if (!spot || !eva || spot.crew.length !== 1 || from === undefined) return false;
        const next = eva.crew[(eva.crew.indexOf(from) + 1) % eva.crew.length];
        if (next === undefined || next === from) return false;
        desk.place(task, { ...spot, crew: [next] });
        look.setState({ focus: { task, lane: next } });
        say(`${request.name} goes to ${plan.crew.find((member) => member.id === next)?.name ?? next}.`);
        return true;
      }
      default:
        return false;
    }
  };

  /** The keyboard's place goes to a neighbour before its block leaves the line. */
  const focusBeside = (task: string, lane: string): void => {
    const { blocks, lanes } = standing();
    const from = { task, lane: look.getState().focus?.lane ?? lane };
    const next = blockBeside(blocks, lanes, from, "later") ?? blockBeside(blocks, lanes, from, "earlier");
    look.setState({ focus: next ? { task: next.task, lane: next.lane } : null });
  };

  const walk = (way: Direction): void => {
    const { focus } = look.getState();
    const { blocks, lanes } = standing();
    const from = focus ?? blocks[0];
    const next = from ? blockBeside(blocks, lanes, from, way) : null;
    if (!next) return;
    look.setState({ focus: { task: next.task, lane: next.lane } });
    desk.select([next.task]);
    windows.reveal(next);
  };

  const down = (event: KeyboardEvent): void => {
    if (hold.key(event) || command(event)) {
      event.preventDefault();
      event.stopPropagation();
    }
  };
  window.addEventListener("keydown", down, true);
  return () => window.removeEventListener("keydown", down, true);
}

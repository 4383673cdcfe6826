import type { Direction } from "../../editor/index.ts";
import { keysOf } from "../../session/index.ts";
import { refuse } from "../viewstate.ts";
import type { DayGesture } from "./gesture.ts";
import { followHands, type KeyGround, stepAside, walk } from "./keyplace.ts";

const WAYS: Readonly<Record<string, Direction>> = {
  ArrowLeft: "earlier",
  ArrowRight: "later",
  ArrowUp: "above",
  ArrowDown: "below",
  Home: "first",
  End: "last",
};

/** What the day's keys work on. */
export interface KeyWork extends KeyGround {
  readonly gesture: DayGesture;
}

/**
 * Listens for the day's keys on the whole page; the answer ends it. What is in hand comes first, then the walk from block
 * to block, then the commands of the line. Fields, dialogs and menus keep their own keys.
 */
export function dayKeys(work: KeyWork): () => void {
  const down = (event: KeyboardEvent): void => {
    if (work.gesture.key(event) || isDone(work, event)) {
      event.preventDefault();
      event.stopPropagation();
    }
  };
  window.addEventListener("keydown", down, true);
  return () => window.removeEventListener("keydown", down, true);
}

/** Does what a key means on the line with nothing in hand; false where it means nothing there. */
function isDone(work: KeyWork, event: KeyboardEvent): boolean {
  const target = event.target instanceof Element ? event.target : null;
  if (target?.closest("input, textarea, select, dialog, [role=menu]")) return false;
  const ctrl = event.ctrlKey || event.metaKey;
  if (event.altKey) return !ctrl && pan(work, event.key);
  const way = WAYS[event.key];
  if (way && !ctrl && target?.closest(".block")) {
    walk(work, way, event.shiftKey);
    return true;
  }
  if (event.key === "ContextMenu" || (event.key === "F10" && event.shiftKey)) return openMenu(work, target);
  if (event.key === "Enter" || event.key === " ") return take(work, target);
  return runCommand(work, keysOf(event), target);
}

function pan({ windows }: KeyWork, key: string): boolean {
  if (key !== "ArrowLeft" && key !== "ArrowRight") return false;
  windows.panShare(key === "ArrowLeft" ? -0.2 : 0.2);
  return true;
}

/** A command of the line, on the task that has the keyboard when it is not among the selected. */
function runCommand(work: KeyWork, keys: string, target: Element | null): boolean {
  const { session, view } = work;
  const found = session.commands.forKeys(keys);
  if (found?.where !== "line" || found.id === "keys") return false;
  const onLine = target === document.body || Boolean(target?.closest("[data-line], [data-bench]"));
  if (!onLine && !target?.closest("[data-task]"))
    return found.group === "Line" ? session.commands.run(found.id) : false;
  if (found.group === "Tasks" && !found.id.startsWith("select")) selectUnder(work, target);
  if (found.id === "bench") stepAside(work);
  const done = session.commands.run(found.id);
  const why = done ? null : found.disabledReason();
  if (why !== null) refuse(view, why);
  followHands(work);
  return done;
}

function selectUnder({ session }: KeyWork, target: Element | null): void {
  const task = target?.closest<HTMLElement>("[data-task]")?.dataset["task"];
  if (task !== undefined && !session.state.getState().selection.includes(task)) session.select([task]);
}

function take({ gesture }: KeyWork, target: Element | null): boolean {
  const bar = target?.closest<HTMLElement>("[data-eva]");
  if (bar) return gesture.take(bar.dataset["evaTask"] ?? "", null, bar.dataset["eva"] ?? "");
  const block = target?.closest<HTMLElement>("[data-task]");
  if (!block) return false;
  return gesture.take(block.dataset["task"] ?? "", block.dataset["lane"] ?? null);
}

function openMenu(work: KeyWork, target: Element | null): boolean {
  const block = target?.closest<HTMLElement>("[data-task]");
  if (!block) return false;
  selectUnder(work, block);
  const box = block.getBoundingClientRect();
  work.view.setState({ menu: { x: box.left + 8, y: box.bottom } });
  return true;
}

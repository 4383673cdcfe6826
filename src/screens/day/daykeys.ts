import { blockBeside, type Direction, REMOTE } from "../../editor/index.ts";
import { type Desk, keysOf } from "../../session/index.ts";
import type { DayLayout } from "./line/geometry.ts";
import { type Look, refuse } from "../look.ts";
import type { DayGesture } from "./gesture.ts";
import type { Windowing } from "./windowing.ts";

const WAYS: Readonly<Record<string, Direction>> = {
  ArrowLeft: "earlier",
  ArrowRight: "later",
  ArrowUp: "above",
  ArrowDown: "below",
  Home: "first",
  End: "last",
};

/**
 * Listens for the day's keys on the whole page; the answer ends it. What is held comes first, then the walk from block
 * to block, then the commands of the line. Fields, dialogs and menus keep their own keys.
 */
export function dayKeys(
  desk: Desk,
  look: Look,
  gesture: DayGesture,
  windows: Windowing,
  standing: () => DayLayout,
): () => void {
  const command = (event: KeyboardEvent): boolean => {
    const target = event.target instanceof Element ? event.target : null;
    if (target?.closest("input, textarea, select, dialog, [role=menu]")) return false;
    const ctrl = event.ctrlKey || event.metaKey;
    if (event.altKey) {
      if (ctrl || (event.key !== "ArrowLeft" && event.key !== "ArrowRight")) return false;
      windows.panShare(event.key === "ArrowLeft" ? -0.2 : 0.2);
      return true;
    }
    const onBlock = target?.closest(".block") !== null && target !== null;
    const way = WAYS[event.key];
    if (way && onBlock && !ctrl) {
      walk(way, event.shiftKey);
      return true;
    }
    if (event.key === "ContextMenu" || (event.key === "F10" && event.shiftKey)) return openMenu(target);
    if (event.key === "Enter" || event.key === " ") return take(target);
    return onCommand(keysOf(event), target);
  };

  /** A command of the line, on the task that has the keyboard when it is not among the selected. */
  const onCommand = (keys: string, target: Element | null): boolean => {
    const found = desk.commands.forKeys(keys);
    if (found?.where !== "line" || found.id === "keys") return false;
    const onLine = target === document.body || Boolean(target?.closest("[data-line], [data-bench]"));
    if (!onLine && !target?.closest("[data-task]"))
      return found.group === "Line" ? desk.commands.run(found.id) : false;
    if (found.group === "Tasks" && !found.id.startsWith("select")) selectUnder(target);
    if (found.id === "bench") focusBeside();
    const done = desk.commands.run(found.id);
    const why = done ? null : found.disabledReason();
    if (why !== null) refuse(look, why);
    followHands();
    return done;
  };

  const selectUnder = (target: Element | null): void => {
    const task = target?.closest<HTMLElement>("[data-task]")?.dataset["task"];
    if (task !== undefined && !desk.state.getState().selection.includes(task)) desk.select([task]);
  };

  const take = (target: Element | null): boolean => {
    const bar = target?.closest<HTMLElement>("[data-eva]");
    if (bar) return gesture.take(bar.dataset["evaTask"] ?? "", null, bar.dataset["eva"] ?? "");
    const block = target?.closest<HTMLElement>("[data-task]");
    if (!block) return false;
    return gesture.take(block.dataset["task"] ?? "", block.dataset["lane"] ?? null);
  };

  const openMenu = (target: Element | null): boolean => {
    const block = target?.closest<HTMLElement>("[data-task]");
    if (!block) return false;
    selectUnder(block);
    const box = block.getBoundingClientRect();
    look.setState({ menu: { x: box.left + 8, y: box.bottom } });
    return true;
  };

  /** The keyboard's place goes to a neighbour before its block leaves the line. */
  const focusBeside = (): void => {
    const { blocks, lanes } = standing();
    const { selection, plan } = desk.state.getState();
    const task = look.getState().focus?.task ?? selection[0];
    if (task === undefined || !selection.includes(task)) return;
    const spot = plan.schedule.placements.find((one) => one.task === task);
    const from = { task, lane: look.getState().focus?.lane ?? spot?.crew[0] ?? REMOTE };
    const staying = blocks.filter((one) => one.task === task || !selection.includes(one.task));
    const next = blockBeside(staying, lanes, from, "later") ?? blockBeside(staying, lanes, from, "earlier");
    look.setState({ focus: next ? { task: next.task, lane: next.lane } : null });
  };

  /** The keyboard's place follows its task to another lane. */
  const followHands = (): void => {
    const { focus } = look.getState();
    const spot = desk.state.getState().plan.schedule.placements.find((one) => one.task === focus?.task);
    const [first] = spot?.crew ?? [];
    if (focus && spot && first !== undefined && !spot.crew.includes(focus.lane)) {
      look.setState({ focus: { task: focus.task, lane: first } });
    }
  };

  const walk = (way: Direction, more: boolean): void => {
    const { focus } = look.getState();
    const { blocks, lanes } = standing();
    const from = focus ?? blocks[0];
    const next = from ? blockBeside(blocks, lanes, from, way) : null;
    if (!next) return;
    // The minute goes along; it is the pointer's again when that moves.
    look.setState({ focus: { task: next.task, lane: next.lane }, cursorS: null, minuteS: next.startS });
    const { selection } = desk.state.getState();
    desk.select(more ? [...new Set([...selection, ...(from ? [from.task] : []), next.task])] : [next.task]);
    windows.reveal(next);
  };

  const down = (event: KeyboardEvent): void => {
    if (gesture.key(event) || command(event)) {
      event.preventDefault();
      event.stopPropagation();
    }
  };
  window.addEventListener("keydown", down, true);
  return () => window.removeEventListener("keydown", down, true);
}

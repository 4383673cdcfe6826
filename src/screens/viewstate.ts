import { createStore, type StoreApi } from "zustand/vanilla";
import type { Finding, Verdict } from "../answers/index.ts";
import type { Edge, Lasso, Manner, Snapped, Stuck, Target, TimeWindow } from "../editor/index.ts";
import type { Plan } from "../plan/index.ts";
import type { ClockKind } from "../words/index.ts";
import { wholeMinute } from "./wholeminute.ts";

/** How the plan is looked at: nothing here is part of the plan, and nothing here is undone. */

export type Screen = "day" | "site" | "variants" | "odds" | "rehearsal" | "setup" | "paper";
export type Theme = "light" | "dark" | "dim";

/** The themes by name; the last one is of low luminance, for eyes that are used to a dark room. */
export const THEMES: readonly { readonly id: Theme; readonly name: string }[] = [
  { id: "light", name: "Light" },
  { id: "dark", name: "Dark" },
  { id: "dim", name: "Dark room" },
];

/** What a theme is called. */
export function themeName(theme: Theme): string {
  return THEMES.find(({ id }) => id === theme)?.name ?? theme;
}

/** The theme after this one, round at the end. */
export function nextTheme(theme: Theme): Theme {
  return THEMES[(THEMES.findIndex(({ id }) => id === theme) + 1) % THEMES.length]?.id ?? "light";
}

/** A plan that is being made ready to be judged: how many of its places have their ways, and how that is broken off. */
export interface Making {
  readonly title: string;
  /** Null before the first word of it. */
  readonly progress: { readonly done: number; readonly total: number } | null;
  stop(): void;
}

/** What is in hand, for the label beside the pointer. */
export interface InHand {
  /** The one under the pointer. */
  readonly task: string;
  /** All that go along, that one among them. */
  readonly tasks: readonly string[];
  /** The end in hand, when it is a duration; the target's start is then the time of that end. */
  readonly edge: Edge | null;
  /** The EVA, when all of it is in hand. */
  readonly eva: string | null;
  /** What the others do. */
  readonly manner: Manner;
  /** Others that were pushed, with by how much, seconds. */
  readonly slid: ReadonlyMap<string, number>;
  /** Others that should have been pushed and cannot be. */
  readonly stuck: readonly Stuck[];
  /** Lane it was taken by; null from the bench. */
  readonly fromLane: string | null;
  readonly by: "pointer" | "keys";
  readonly target: Target;
  readonly snap: Snapped | null;
}

/** A day to hold the present one against: the plan before a move and its verdict, and the plan that the move made. */
interface Before {
  readonly plan: Plan;
  readonly verdict: Verdict;
  readonly now: Plan;
  readonly tasks: readonly string[];
}

/** What was written in a cell and why the plan does not take it. */
export interface KeptCell {
  /** The cell in words: "Worth of Quick sample". */
  readonly label: string;
  readonly draft: string;
  readonly fault: string;
}

/** A cell of setup that is led to: its table, its row, and which of the row's fields. */
export interface SetupCell {
  readonly table: string;
  readonly row: string;
  /** By its place in the whole table, or by its path within the thing. */
  readonly field: number | string;
}

export interface ViewState {
  readonly screen: Screen;
  readonly theme: Theme;
  /** Time shown on the day line and the margins. */
  readonly window: TimeWindow;
  /** Time under the pointer; null when it is elsewhere. */
  readonly cursorS: number | null;
  /** The minute that was pointed at last; null before the first. The map stays at it while the pointer is elsewhere. */
  readonly minuteS: number | null;
  /** The block that has the keyboard's place on the day line. */
  readonly focus: { readonly task: string; readonly lane: string } | null;
  readonly inHand: InHand | null;
  /** The day before the last move, while the plan is what that move made of it and what was moved is selected. */
  readonly before: Before | null;
  /** What others do when nothing else is asked for. */
  readonly manner: Manner;
  /** What dragging the empty ground does. */
  readonly tool: "pan" | "lasso";
  /** The lasso being drawn, pixels of the lanes. */
  readonly lasso: Lasso | null;
  /** A drag that was refused because these tasks are pinned, and where on the page. */
  readonly refused: { readonly tasks: readonly string[]; readonly x: number; readonly y: number } | null;
  /** A menu of what can be done with the selection, where on the page, and the time it was opened at on the line. */
  readonly menu: { readonly x: number; readonly y: number; readonly atS?: number } | null;
  readonly clock: ClockKind;
  /** Variants that are held against the day, in the order in which they were chosen. */
  readonly compared: readonly string[];
  /** What the screen of odds shows. */
  readonly oddsPart: "odds" | "curve" | "late";
  /** What a pack is for: likely durations, the plan's wish, or another chance of every must-do done. */
  readonly packFor: "likely" | "wish" | number;
  /** The finding that was gone to last. */
  readonly chosen: Finding | null;
  /** A word to who opens the program for the first time. */
  readonly greeting: boolean;
  /** The steps from an empty plan to a packed day. */
  readonly firstSteps: boolean;
  /** The page of setup that was led to; null leaves it to what was shown last. */
  readonly setupPage: string | null;
  /** The cell of setup that was led to; null once it is there. */
  readonly setupCell: SetupCell | null;
  /** What was written in cells of setup and the plan does not take, with the plan that it was written for. */
  readonly keptCells: { readonly slot: string; readonly drafts: ReadonlyMap<string, KeptCell> } | null;
  /** The file that was not written, since somebody else has changed it; null where none is asked about. */
  readonly changedFile: string | null;
  /** The plans in this browser. */
  readonly shelfShown: boolean;
  /** The list of what the autosave has kept aside. */
  readonly quarantineShown: boolean;
  /** The window of lists: the files that were chosen for it, none where rows will be pasted; null while it is closed. */
  readonly importing: readonly File[] | null;
  /** The searchable list of commands. */
  readonly listShown: boolean;
  /** Every margin of a suit in its own strip, or the four of a suit in one; null leaves it to the room there is. */
  readonly margins: "all" | "least" | null;
  /** True where the map is put away from beside the lanes, however wide the window is. */
  readonly mapAway: boolean;
  /** What is open of the side where it is a rail. */
  readonly sideOpen: boolean;
  /** Whether all fields of the selected task are shown. */
  readonly details: boolean;
  /** The field of the details that is to be opened as soon as they are there; null when none is. */
  readonly detailsAt: string | null;
  /** The task under the pointer, on the line or on the bench. */
  readonly pointed: string | null;
  /** The dialog of exports. */
  readonly exporting: boolean;
  /** A plan that is being made ready to be opened; null while none is. */
  readonly making: Making | null;
  /** Starts a newer version of the program, the plan saved first; null while there is none. */
  readonly newerVersion: (() => void) | null;
  readonly keysShown: boolean;
  /** What a screen reader is told. */
  readonly spoken: string;
  /** Why what was just asked for is not done; null when nothing was refused. */
  readonly hint: string | null;
}

export type ViewStore = StoreApi<ViewState>;

/** The view at the start. */
export function createViewStore(theme: Theme): ViewStore {
  return createStore<ViewState>()(() => ({
    screen: "day",
    theme,
    window: { startS: 0, endS: 3600 },
    cursorS: null,
    minuteS: null,
    focus: null,
    inHand: null,
    before: null,
    manner: "stay",
    tool: "pan",
    lasso: null,
    refused: null,
    menu: null,
    clock: "met",
    compared: [],
    oddsPart: "odds",
    packFor: "wish",
    chosen: null,
    greeting: false,
    firstSteps: false,
    setupPage: null,
    setupCell: null,
    keptCells: null,
    changedFile: null,
    shelfShown: false,
    quarantineShown: false,
    importing: null,
    exporting: false,
    making: null,
    newerVersion: null,
    listShown: false,
    margins: null,
    mapAway: false,
    sideOpen: false,
    details: false,
    detailsAt: null,
    pointed: null,
    keysShown: false,
    spoken: "",
    hint: null,
  }));
}

/** Says why what was asked for is not done: to who listens, and where it is read. */
export function refuse(view: ViewStore, why: string): void {
  view.setState({ spoken: why, hint: why });
}

/** Remembers the minute that was pointed at last; the answer ends it. */
export function keepMinute(view: ViewStore): () => void {
  return view.subscribe(({ cursorS }, before) => {
    if (cursorS !== null && cursorS !== before.cursorS) view.setState({ minuteS: wholeMinute(cursorS) });
  });
}

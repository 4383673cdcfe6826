import { useEffect, useMemo, useRef, useState } from "react";
import type { TimeScale } from "../../../../editor/index.ts";
import { useView } from "../../../context.ts";
import { facePx, font } from "../../../parts/canvas/brush.ts";
import { useFace } from "../../../parts/canvas/canvas.tsx";
import { blockMeasure } from "../paintblocks.ts";
import { PAUSE_FACE } from "../paintribbon.ts";
import type { DayLayout } from "../geometry.ts";
import { type Wanting, wantingOf } from "./wanting.ts";
import { type PlacedName, placeNames, placeNamesBetter, type Sky } from "./place.ts";
import { boxesOf, limitBoxes, markBoxes, type SkySign, skySigns, stayBoxes } from "./signs.ts";
import { remoteNames } from "./remote.ts";
import { skyOf } from "./sky.ts";

/** Names and signs in the skies, and the scale that they were placed at. */
export interface Named {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
  readonly signs: readonly SkySign[];
  readonly names: readonly (PlacedName & Pick<Wanting, "task" | "text">)[];
}

/** The face of names in rows, and of signs. */
export const NAME_FACE = font(12.5, 550);
export const SIGN_FACE = font(12.5, 600);

/** What is asked for and where: all that the places are worked out from. */
interface Sought {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
  readonly signs: readonly SkySign[];
  readonly wanting: readonly Wanting[];
  readonly skies: readonly Sky[];
  /** Names in the rows of work by command. */
  readonly remote: Named["names"];
}

/**
 * The names that have no room in their blocks. They are placed at once, where they stood if they still can, and again with patience when the machine is idle, which is
 * taken only where it names more. They hold still while anything is in hand, and go along with their blocks while the window moves:
 * `restScale` is that at which it stood last, `still` is true while it stands there.
 */
export function useNames(
  layout: DayLayout,
  restScale: TimeScale,
  still: boolean,
  known: { readonly slack: ReadonlyMap<string, number>; readonly plates: ReadonlySet<string> },
): Named | null {
  const inHand = useView((view) => view.inHand !== null);
  const face = useFace();
  const day = useKept(layout, inHand);
  const scale = useKept(restScale, inHand);
  const sought = useMemo(
    () => (face ? soughtOf(day, scale, known.slack, known.plates) : null),
    [day, scale, known, face],
  );
  const had = useRef<readonly PlacedName[]>([]);
  const atOnce = useMemo(
    () => (sought ? placeNames(sought.wanting, sought.skies, had.current) : []),
    [sought],
  );
  const [better, setBetter] = useState<{ readonly of: Sought; readonly names: readonly PlacedName[] } | null>(
    null,
  );
  useEffect(() => {
    if (!sought || inHand || !still || atOnce.length === sought.wanting.length) return;
    return whenIdle(placeNamesBetter(sought.wanting, sought.skies, atOnce), (names) => {
      if (names.length > atOnce.length) setBetter({ of: sought, names });
    });
  }, [sought, atOnce, inHand, still]);
  const places = better?.of === sought ? better.names : atOnce;
  useEffect(() => {
    had.current = places;
  }, [places]);
  return useMemo(() => (sought ? named(sought, places) : null), [sought, places]);
}

function named({ layout, scale, signs, wanting, remote }: Sought, places: readonly PlacedName[]): Named {
  const wanted = new Map(wanting.map((one) => [one.key, one]));
  const names = places.flatMap((place) => {
    const name = wanted.get(place.key);
    return name ? [{ ...place, task: name.task, text: name.text }] : [];
  });
  return { layout, scale, signs, names: [...names, ...remote] };
}

/** `value`; while `isFrozen`, what it was before. */
function useKept<Value>(value: Value, isFrozen: boolean): Value {
  const [kept, keep] = useState(value);
  useEffect(() => {
    if (!isFrozen) keep(() => value);
  }, [value, isFrozen]);
  return isFrozen ? kept : value;
}

/** A context to measure with: the line's own, since a canvas beside the page has other figures. Null before there is one. */
export function measuring(): CanvasRenderingContext2D | null {
  return document.querySelector<HTMLCanvasElement>(".stage canvas")?.getContext("2d") ?? null;
}

function soughtOf(
  layout: DayLayout,
  scale: TimeScale,
  slack: ReadonlyMap<string, number>,
  plates: ReadonlySet<string>,
): Sought | null {
  const ctx = measuring();
  if (!ctx) return null;
  const wide = (face: string) => (text: string) => facePx(ctx, face, text);
  const wanting = wantingOf(layout, scale, plates, blockMeasure(ctx), wide(NAME_FACE));
  const lanes = layout.lanes.filter((lane) => lane.crew !== null);
  const signs = lanes.map((lane) => skySigns(layout, lane, scale, slack, wide(SIGN_FACE), wide(PAUSE_FACE)));
  const skies = lanes.map((lane, i) => {
    const taken = [
      ...limitBoxes(layout, lane, scale),
      ...markBoxes(layout, lane, scale),
      ...stayBoxes(layout, lane, scale, wide(SIGN_FACE)),
      ...(signs[i] ?? []).flatMap(boxesOf),
    ];
    return skyOf(layout, lane, scale, taken);
  });
  const remote = remoteNames(layout, scale, blockMeasure(ctx), wide(NAME_FACE));
  return { layout, scale, signs: signs.flat(), wanting, skies, remote };
}

/** How long a slice of idle work may take: a hand may come at any moment. How long to wait between two where idleness is not told. ms */
const SLICE_MS = 4;
const PAUSE_MS = 20;

/** Works when nothing else is to be done, slice by slice, and gives the answer; what it returns ends it. */
function whenIdle<Answer>(work: Generator<void, Answer>, done: (answer: Answer) => void): () => void {
  let gone = false;
  const step = (): void => {
    const untilMs = performance.now() + SLICE_MS;
    while (!gone && performance.now() < untilMs) {
      const next = work.next();
      if (!next.done) continue;
      done(next.value);
      return;
    }
    if (!gone) wait();
  };
  const wait = (): void => {
    if (typeof requestIdleCallback === "function") {
      requestIdleCallback(step);
      return;
    }
    setTimeout(step, PAUSE_MS);
  };
  wait();
  return () => {
    gone = true;
  };
}

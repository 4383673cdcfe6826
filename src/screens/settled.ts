import { useEffect, useLayoutEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import type { Session, SessionState } from "../session/index.ts";
import { useApp, useView } from "./context.ts";
import type { InHand, ViewStore, ViewState } from "./viewstate.ts";

/**
 * `value`, but of a stream of changes only the first and the one it comes to rest at: for parts that need not follow
 * every frame. A single change is followed at once; `restMs` without a change is rest.
 */
export function useSettled<Value>(value: Value, restMs: number): Value {
  const [kept, keep] = useState(value);
  const last = useRef({ value, atMs: -Infinity });
  useEffect(() => {
    if (Object.is(value, last.current.value)) return;
    const atMs = performance.now();
    const streams = atMs - last.current.atMs < restMs;
    last.current = { value, atMs };
    const timer = setTimeout(() => keep(() => value), streams ? restMs : 0);
    return () => clearTimeout(timer);
  }, [value, restMs]);
  return kept;
}

/** How often lists are made anew while something is in hand, ms: they are read, not watched. */
const CALM_MS = 100;
/** Made anew together they would make one long frame: each has its own, so far apart, ms. */
const SLOT_MS = 17;

/** When lists will be made anew, ms. */
let slots: readonly number[] = [];

/** The first free moment from `earliestMs` on, taken. */
function slotFrom(earliestMs: number): number {
  const coming = slots.filter((ms) => ms > performance.now() - SLOT_MS);
  const at = coming.reduce(
    (ms, other) => (Math.abs(other - ms) < SLOT_MS ? other + SLOT_MS : ms),
    earliestMs,
  );
  slots = [...coming, at].toSorted((a, b) => a - b);
  return at;
}

/** When one list is made anew: at its next slot, whatever changes until then. */
interface Pace {
  /** Has `put` called when the list is due; one that waits gives way to it. */
  request(by: InHand["by"], put: () => void): void;
  /** Forgets what waits; the slot stays taken. */
  forget(): void;
}

function calmPace(): Pace {
  let keptMs = -Infinity;
  let dueMs: number | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const forget = (): void => clearTimeout(timer);
  return {
    forget,
    request(by, put) {
      forget();
      const now = performance.now();
      const made = (): void => {
        keptMs = performance.now();
        dueMs = null;
        put();
      };
      const restedMs = keptMs + CALM_MS;
      // A key is one change and is answered at once; a pointer makes a stream of them.
      if (by === "keys" && now >= (dueMs ?? restedMs)) made();
      else {
        dueMs ??= slotFrom(Math.max(now, restedMs));
        timer = setTimeout(made, dueMs - now);
      }
    },
  };
}

/** `value`; while something is in hand no oftener than ten times a second, the latest at the end. */
export function useCalm<Value>(value: Value): Value {
  const by = useView((view) => view.inHand?.by ?? null);
  const inHand = by !== null;
  const [kept, keep] = useState(value);
  const [pace] = useState(calmPace);
  useLayoutEffect(() => {
    if (Object.is(value, kept)) return;
    pace.request(by ?? "pointer", () => keep(() => value));
    return pace.forget;
  }, [value, kept, by, pace]);
  // At rest it is followed at once, so that what is taken in hand next begins with what was shown.
  if (!inHand && !Object.is(value, kept)) keep(() => value);
  return inHand ? kept : value;
}

/** Parts of the session and the view that a list is made of. */
type Parts = readonly unknown[];
type SelectParts<Made extends Parts> = (session: SessionState, view: ViewState) => Made;

/**
 * Parts of the session and the view; while something is in hand no oftener than ten times a second, the latest at the end. Whoever reads
 * them so is not even asked in between.
 */
export function useCalmSession<Made extends Parts>(select: SelectParts<Made>): Made {
  const { session, view } = useApp();
  const calm = useMemo(() => calmSession(session, view), [session, view]);
  return useSyncExternalStore(calm.subscribe, () => calm.read(select) as Made);
}

/** Session and view as a list saw them last. */
function calmSession({ state }: Session, view: ViewStore) {
  const now = () => ({ session: state.getState(), view: view.getState() });
  let kept = now();
  let parts: Parts = [];
  let wanted: SelectParts<Parts> = () => parts;
  const pace = calmPace();

  /** Between the press and the first move there is a preview, and nothing in hand yet. */
  const hand = (): InHand["by"] | null =>
    view.getState().inHand?.by ?? (state.getState().preview === null ? null : "pointer");

  return {
    read(select: SelectParts<Parts>): Parts {
      wanted = select;
      const { session, view: looked } = hand() === null ? now() : kept;
      const next = select(session, looked);
      if (!sameParts(next, parts)) parts = next;
      return parts;
    },
    subscribe(listener: () => void): () => void {
      let isQueued = false;
      let answering = false;
      let ended = false;
      const follow = (): void => {
        kept = now();
        listener();
      };
      /** A move changes desk and look one after the other: both are seen, or neither. */
      const settle = (): void => {
        isQueued = false;
        const by = hand();
        const { session, view: looked } = now();
        if (!ended && by !== null && !sameParts(wanted(session, looked), parts)) pace.request(by, follow);
      };
      /** A key is one change and is answered at once, with all that its step still changes. */
      const keyed = (): void => {
        const before = kept;
        if (answering) follow();
        else settle();
        if (kept === before || answering) return;
        answering = true;
        queueMicrotask(() => (answering = false));
      };
      const changed = (): void => {
        const by = hand();
        if (by === null) {
          pace.forget();
          follow();
        } else if (by === "keys") keyed();
        else if (!isQueued) {
          isQueued = true;
          queueMicrotask(settle);
        }
      };
      const stops = [state.subscribe(changed), view.subscribe(changed)];
      return () => {
        ended = true;
        pace.forget();
        for (const stop of stops) stop();
      };
    },
  };
}

function sameParts(a: Parts, b: Parts): boolean {
  return a.length === b.length && a.every((one, i) => Object.is(one, b[i]));
}

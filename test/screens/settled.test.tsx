// @vitest-environment jsdom
import { act } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { AppContext } from "../../src/screens/context.ts";
import { createViewStore, type InHand } from "../../src/screens/viewstate.ts";
import { createStore, type StoreApi } from "zustand/vanilla";
import { useCalm, useCalmSession } from "../../src/screens/settled.ts";

const HELD: InHand = {
  task: "one",
  tasks: ["one"],
  edge: null,
  eva: null,
  manner: "stay",
  slid: new Map(),
  stuck: [],
  fromLane: null,
  by: "pointer",
  target: { at: "bench" },
  snap: null,
};

let root: Root;
let view: ReturnType<typeof createViewStore>;
/** What each list shows, and when it was last made anew, ms. */
const shown = new Map<string, { readonly value: number; readonly atMs: number }>();

function List({ name, value }: { readonly name: string; readonly value: number }) {
  const calm = useCalm(value);
  if (shown.get(name)?.value !== calm) shown.set(name, { value: calm, atMs: performance.now() });
  return null;
}

/** Three lists of the same figure. */
const show = (value: number): void =>
  act(() =>
    root.render(
      // Lists ask nothing of what is around them but the look.
      <AppContext value={{ view } as never}>
        {["a", "b", "c"].map((name) => (
          <List key={name} name={name} value={value} />
        ))}
      </AppContext>,
    ),
  );
const after = (ms: number): void => act(() => void vi.advanceTimersByTime(ms));
const values = (): readonly number[] => [...shown.values()].map(({ value }) => value);

beforeEach(() => {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  vi.useFakeTimers();
  shown.clear();
  view = createViewStore("light");
  root = createRoot(document.createElement("div"));
  show(0);
});

afterEach(() => {
  act(() => root.unmount());
  vi.useRealTimers();
});

describe("what is read while something is in hand", () => {
  it("follows at once while nothing is", () => {
    show(1);
    expect(values()).toEqual([1, 1, 1]);
  });

  it("follows a key at once", () => {
    act(() => view.setState({ inHand: { ...HELD, by: "keys" } }));
    show(1);
    expect(values()).toEqual([1, 1, 1]);
  });

  it("is made anew a list a frame, never two at once", () => {
    act(() => view.setState({ inHand: HELD }));
    show(1);
    expect(values()).toEqual([0, 0, 0]);
    for (let ms = 0; ms < 100; ms += 1) after(1);
    expect(values()).toEqual([1, 1, 1]);
    const moments = [...shown.values()].map(({ atMs }) => atMs).toSorted((a, b) => a - b);
    expect(moments[1]! - moments[0]!).toBeGreaterThanOrEqual(16);
    expect(moments[2]! - moments[1]!).toBeGreaterThanOrEqual(16);
  });

  it("comes to the latest of a stream of changes, no oftener than ten times a second", () => {
    act(() => view.setState({ inHand: HELD }));
    const seen = new Set<number>();
    for (let value = 1; value <= 60; value += 1) {
      show(value);
      after(16);
      seen.add(shown.get("a")!.value);
    }
    expect(seen.size).toBeGreaterThan(5);
    // 60 frames of 16 ms.
    expect(seen.size).toBeLessThanOrEqual(11);
    after(200);
    expect(values()).toEqual([60, 60, 60]);
  });

  it("is what was shown last when something is taken in hand", () => {
    show(5);
    act(() => view.setState({ inHand: HELD }));
    expect(values()).toEqual([5, 5, 5]);
  });
});

describe("parts of the desk that are read", () => {
  const NONE = { preview: null, figure: 0 } as { preview: object | null; figure: number };
  let session: StoreApi<typeof NONE>;
  /** Each making of the list: the desk's figure, and whose hand it saw. */
  const made: (readonly [number, string | null])[] = [];

  function Read() {
    made.push(
      useCalmSession((now, seen) => [
        (now as unknown as typeof NONE).figure,
        seen.inHand?.task ?? null,
      ]) as unknown as readonly [number, string | null],
    );
    return null;
  }
  const settle = (): Promise<void> => act(async () => void (await Promise.resolve()));

  beforeEach(() => {
    made.length = 0;
    session = createStore<typeof NONE>()(() => NONE);
    act(() =>
      root.render(
        <AppContext value={{ view, session: { state: session } } as never}>
          <Read />
        </AppContext>,
      ),
    );
  });

  it("are followed at once at rest, and not made anew for what they are not made of", () => {
    act(() => session.setState({ figure: 1 }));
    act(() => view.setState({ spoken: "else" }));
    expect(made).toEqual([
      [0, null],
      [1, null],
    ]);
  });

  it("are not asked for in between while something is in hand, and come to the latest", async () => {
    act(() => view.setState({ inHand: HELD }));
    for (let figure = 1; figure <= 5; figure += 1) {
      act(() => session.setState({ figure, preview: {} }));
      await settle();
    }
    expect(made).toEqual([[0, null]]);
    after(100);
    expect(made.slice(1)).toEqual([[5, "one"]]);
  });

  it("wait from the press on, before anything is in hand, and are followed at once when it is let go", async () => {
    act(() => session.setState({ figure: 1, preview: {} }));
    await settle();
    expect(made).toEqual([[0, null]]);
    act(() => session.setState({ figure: 2, preview: null }));
    expect(made.slice(1)).toEqual([[2, null]]);
  });

  it("show what a key does at once, desk and hand together", async () => {
    act(() => session.setState({ figure: 1, preview: {} }));
    act(() => view.setState({ inHand: { ...HELD, by: "keys", task: "two" } }));
    await settle();
    expect(made.slice(1)).toEqual([[1, "two"]]);
  });
});

import { act, type ReactNode } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeAll } from "vitest";
import { AppContext } from "../../../src/screens/context.ts";
import { createViewStore } from "../../../src/screens/viewstate.ts";
import { sessionWith } from "../../session/bench.ts";

/** A stage for views that stand on a desk: shows them, and acts as a person's hands on them. */

let root: Root | null = null;

/** Call at the head of a test file that shows views. */
export function setStage(): void {
  beforeAll(() => {
    Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
    // The test document has no list of sheets made by code.
    Object.assign(document, { adoptedStyleSheets: [] });
    // Newer browsers answer with a promise, which an effect must not hand on.
    Element.prototype.scrollIntoView = () => Promise.resolve() as unknown as undefined;
    // The test document knows dialogs but cannot open them.
    HTMLDialogElement.prototype.showModal = function () {
      this.setAttribute("open", "");
    };
    HTMLDialogElement.prototype.close = function () {
      this.removeAttribute("open");
      this.dispatchEvent(new Event("close"));
    };
  });
  afterEach(() => {
    act(() => root?.unmount());
    document.body.replaceChildren();
  });
}

export function show(
  element: ReactNode,
  begin: (
    session: ReturnType<typeof sessionWith>["session"],
    engine: ReturnType<typeof sessionWith>["engine"],
  ) => void = () => undefined,
) {
  const { session, engine, clock } = sessionWith();
  begin(session, engine);
  const kept = new Map<string, string>();
  const view = createViewStore("light");
  const around = {
    session,
    view,
    sunDeg: () => null,
    walkS: () => () => 0,
    memory: {
      get: (key: string) => kept.get(key) ?? null,
      set: (key: string, value: string) => kept.set(key, value).has(key),
    },
  };
  const host = document.createElement("div");
  document.body.append(host);
  root = createRoot(host);
  act(() => root?.render(<AppContext value={around}>{element}</AppContext>));
  return { session, engine, clock, view };
}

/** The element with the keyboard. */
export function here(): HTMLElement {
  return document.activeElement as HTMLElement;
}

export function press(key: string, more: KeyboardEventInit = {}): void {
  act(
    () =>
      void here().dispatchEvent(
        new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more }),
      ),
  );
}

/** Writes into the field with the keyboard, over what stands there. */
export function write(words: string): void {
  const field = here() as HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;
  const set = Object.getOwnPropertyDescriptor(Object.getPrototypeOf(field), "value")?.set;
  act(() => {
    set?.call(field, words);
    field.dispatchEvent(
      new Event(field instanceof HTMLSelectElement ? "change" : "input", { bubbles: true }),
    );
  });
}

/** The button (or tab) that is called so, or whose words begin so. */
export function button(name: string): HTMLButtonElement {
  const found = [...document.querySelectorAll("button")].find((one) =>
    (one.getAttribute("aria-label") ?? one.textContent ?? "").startsWith(name),
  );
  if (!found) throw new Error(`there is no button "${name}"`);
  return found;
}

export function click(target: HTMLElement): void {
  act(() => target.click());
}

/** The cell of a grid, by row and column, the row's head being column 0. */
export function cell(row: number, column: number): HTMLElement {
  const found = document.querySelectorAll("tbody tr")[row]?.children[column];
  if (!(found instanceof HTMLElement)) throw new Error(`there is no cell ${row}, ${column}`);
  return found;
}

export function goTo(target: HTMLElement): void {
  act(() => target.focus());
}

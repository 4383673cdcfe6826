// @vitest-environment jsdom
import { act } from "react";
import { createRoot } from "react-dom/client";
import { expect, it } from "vitest";
import { useFound } from "../../../src/screens/parts/found.ts";

Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });

function Shown({ ask }: { readonly ask: () => Promise<string> }) {
  const found = useFound(ask);
  return (
    <p>{found === null ? "nothing yet" : "answer" in found ? found.answer : `problem: ${found.problem}`}</p>
  );
}

// Common practice, no source.
it("what is asked for is nothing, then its answer or why there is none; a question that was overtaken is not heard", async () => {
  const host = document.createElement("div");
  const root = createRoot(host);
  const show = (ask: () => Promise<string>): Promise<void> =>
    act(async () => {
      root.render(<Shown ask={ask} />);
      await Promise.resolve();
    });
  let answerLate: (answer: string) => void = () => undefined;
  const late = new Promise<string>((resolve) => (answerLate = resolve));
  await show(() => late);
  expect(host.textContent).toBe("nothing yet");
  await show(() => Promise.resolve("second"));
  expect(host.textContent).toBe("second");
  await act(async () => {
    answerLate("first");
    await late;
  });
  expect(host.textContent).toBe("second");
  await show(() => Promise.reject(new Error("no store")));
  expect(host.textContent).toBe("problem: no store");
  act(() => root.unmount());
});

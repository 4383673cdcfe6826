// @vitest-environment jsdom
import { act } from "react";
import { expect, it, vi } from "vitest";
import { Quarantine } from "../../../src/screens/quarantine/quarantine.tsx";
import { button, click, setStage, show } from "../setup/stage.tsx";

setStage();

// Common practice, no source.
it("the list of plans kept aside opens, says that there is none, and closes", async () => {
  const { view } = show(<Quarantine />);
  act(() => view.setState({ quarantineShown: true }));
  await vi.waitFor(async () => {
    await act(() => Promise.resolve());
    expect(document.body.textContent).not.toContain("Looking…");
  });
  const dialog = document.querySelector("dialog")!;
  expect(dialog.open).toBe(true);
  expect(document.getElementById(dialog.getAttribute("aria-labelledby")!)?.textContent).toBe(
    "Plans kept aside",
  );
  expect(dialog.textContent).toContain("Nothing is kept aside.");
  click(button("Close"));
  expect(view.getState().quarantineShown).toBe(false);
});

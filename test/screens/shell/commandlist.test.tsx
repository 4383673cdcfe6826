// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import { CommandList } from "../../../src/screens/shell/commandlist.tsx";
import { TaskMenu } from "../../../src/screens/shell/taskmenu.tsx";
import { setStage, show, write } from "../setup/stage.tsx";

setStage();

const options = (): readonly HTMLElement[] => [...document.querySelectorAll<HTMLElement>('[role="option"]')];

describe("the list of commands", () => {
  it("opens on what fits the selection, and on the rest where nothing is selected", () => {
    const { session, view } = show(<CommandList />);
    const firstGroups = (): readonly (string | null | undefined)[] =>
      options().map((one) => one.querySelector(".note")?.textContent);
    act(() => session.select(["one"]));
    act(() => view.setState({ listShown: true }));
    const fitting = options().filter(
      (one) =>
        one.getAttribute("aria-disabled") === "false" && one.querySelector(".note")?.textContent === "Tasks",
    ).length;
    expect(fitting).toBeGreaterThan(3);
    expect(firstGroups().slice(0, fitting)).toEqual(Array.from({ length: fitting }, () => "Tasks"));
    expect(options()[0]?.getAttribute("aria-selected")).toBe("true");
  });

  it("finds what somebody calls by another word", () => {
    const { view } = show(<CommandList />, (one) => one.select(["one"]));
    act(() => view.setState({ listShown: true }));
    for (const [words, name] of [
      ["move", "A minute later"],
      ["delete", "Send to bench"],
      ["lock", "Pin where it is"],
    ] as const) {
      const field = document.querySelector<HTMLInputElement>('[role="combobox"]')!;
      act(() => field.focus());
      write(words);
      expect(options().map((one) => one.children[1]?.textContent)).toContainEqual(
        expect.stringContaining(name),
      );
    }
    // No word is found inside another: to remove is not to move.
    write("move");
    expect(options().map((one) => one.textContent)).not.toContainEqual(
      expect.stringContaining("Send to bench"),
    );
  });

  it("says of what cannot be done why, after what can", () => {
    const { view } = show(<CommandList />);
    act(() => view.setState({ listShown: true }));
    const disabled = options().map((one) => one.getAttribute("aria-disabled") === "true");
    expect(disabled).toContain(true);
    expect(disabled.slice(disabled.indexOf(true))).not.toContain(false);
    expect(options()[disabled.indexOf(true)]?.querySelector("i")?.textContent?.trim()).not.toBe("");
  });
});

describe("the menu of the selected tasks", () => {
  it("holds what can be done now and nothing else", () => {
    const { session, view } = show(<TaskMenu />, (one) => one.select(["one"]));
    act(() => view.setState({ menu: { x: 0, y: 0 } }));
    const names = [...document.querySelectorAll('[role="menuitem"]')].map(
      (one) => one.firstElementChild?.textContent ?? "",
    );
    expect(names).toContain("Send to bench");
    const hindered = session.commands.list().filter((one) => one.disabledReason() !== null);
    expect(hindered.length).toBeGreaterThan(0);
    for (const { name } of hindered) expect(names).not.toContain(typeof name === "string" ? name : name());
  });
});

import { describe, expect, it } from "vitest";
import { listStep } from "../../../src/screens/parts/listkeys.ts";

const items = ["Open file…", "Save", "Export…", "  Open the demo"];

describe("keys in a list of commands", () => {
  it.each([
    ["ArrowDown", -1, 0],
    ["ArrowDown", 3, 0],
    ["ArrowUp", 0, 3],
    ["ArrowUp", -1, 3],
    ["Home", 2, 0],
    ["End", 0, 3],
    ["o", -1, 0],
    ["o", 0, 3],
    ["O", 3, 0],
    ["s", 3, 1],
    ["s", 1, 1],
    ["x", 0, null],
    [" ", 0, null],
    ["Tab", 0, null],
  ])("%s from %d leads to %s", (key, at, to) => expect(listStep(key, at, items)).toBe(to));

  it("lead nowhere where there is nothing", () => expect(listStep("ArrowDown", -1, [])).toBeNull());
});

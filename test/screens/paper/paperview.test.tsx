// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import type { PaperPort } from "../../../src/screens/services.ts";
import { PaperView } from "../../../src/screens/paper/paperview.tsx";
import { shedReport } from "../../session/answers.ts";
import { button, click, setStage, show } from "../setup/stage.tsx";

setStage();

const text = () => document.body.textContent ?? "";

/** Paper with a kind that has late pages and one that has none; pages say whether the table was there. */
const paper: PaperPort = {
  kinds: [
    { id: "cuff", name: "Cuff", purpose: "One task a page.", late: true },
    { id: "day", name: "Day", purpose: "One sheet." },
  ],
  pages: (_kind, _plan, _verdict, shed) => [
    {
      svg: `<svg><text>${shed ? "with table" : "no table"}</text></svg>`,
      widthMm: 98,
      heightMm: 132,
      name: "one",
    },
  ],
  unsaid: (kind) => (kind === "cuff" ? [{ words: "no caution for 2 tasks", tasks: ["Sweep", "Look"] }] : []),
  pdf: () => Promise.resolve(new Uint8Array()),
};

const held = () =>
  ["Print", "Save as PDF"].map((name) => button(name).getAttribute("aria-disabled") === "true");
const withoutLate = () =>
  [...document.querySelectorAll("button")].some((one) => one.textContent === "Without late pages");

describe("printing while the late pages are worked out", () => {
  it("is held until they are there", async () => {
    const { engine } = show(<PaperView />, undefined, paper);
    expect(text()).toContain("no table");
    expect(held()).toEqual([true, true]);
    await act(async () => engine.sheds[0]!.answer(shedReport()));
    expect(text()).toContain("with table");
    expect(held()).toEqual([false, false]);
    expect(withoutLate()).toBe(false);
  });

  it("is let go without them by whoever asks for that", () => {
    show(<PaperView />, undefined, paper);
    click(button("Without late pages"));
    expect(held()).toEqual([false, false]);
    expect(text()).toContain("no table");
  });

  it("waits for nothing where there are none", () => {
    show(<PaperView />, undefined, paper);
    click(button("Day"));
    expect(held()).toEqual([false, false]);
  });
});

describe("what is not on paper", () => {
  it("is told in a line that opens to the tasks", () => {
    show(<PaperView />, undefined, paper);
    expect(document.querySelector(".paper-unsaid summary")?.textContent).toBe(
      "On paper: no caution for 2 tasks.",
    );
    expect(text()).toContain("Sweep; Look");
    click(button("Day"));
    expect(document.querySelector(".paper-unsaid")).toBeNull();
  });
});

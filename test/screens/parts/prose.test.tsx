// @vitest-environment jsdom
import { describe, expect, it } from "vitest";
import { Prose } from "../../../src/screens/parts/prose.tsx";
import { setStage, show } from "../setup/stage.tsx";

setStage();

const wholes = () => [...document.querySelectorAll(".whole-figure")].map((one) => one.textContent);

describe("running words", () => {
  it("keep every share with its percent sign, and read as they did", () => {
    const words = "Home on >99 %, done on 70 to 75.5 % of days; wished: 90 % (5 of 6).";
    show(<Prose words={words} />);
    expect(wholes()).toEqual([">99 %", "75.5 %", "90 %"]);
    expect(document.body.textContent).toBe(words);
  });

  it("keep a figure with its unit, and take no word for one", () => {
    const words = "EV1 works 2:26 with 12 min to spare, 39.0 Wh left, 3 minutes and 4 men 2 m apart.";
    show(<Prose words={words} />);
    expect(wholes()).toEqual(["12 min", "39.0 Wh", "2 m"]);
    expect(document.body.textContent).toBe(words);
  });

  it("without a figure are words alone", () => {
    show(<Prose words="to spare, the least" />);
    expect(wholes()).toEqual([]);
    expect(document.body.textContent).toBe("to spare, the least");
  });
});

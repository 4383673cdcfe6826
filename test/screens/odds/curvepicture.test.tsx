// @vitest-environment jsdom
import { describe, expect, it } from "vitest";
import { CurvePicture } from "../../../src/screens/odds/curvepicture.tsx";
import { chanceOf } from "../../../src/solver/simulate/chance.ts";
import { chancesReport } from "../../session/answers.ts";
import { setStage, show } from "../setup/stage.tsx";

setStage();

describe("the picture of the curve", () => {
  it("names each worth at the side once, where the days lie close together too", () => {
    const present = chancesReport({ days: 2000, must: chanceOf(2000, 2000), meanWorth: 498.9 });
    show(
      <CurvePicture
        widthPx={900}
        days={[]}
        wish={0.9}
        present={present}
        chosen={null}
        choose={() => undefined}
      />,
    );
    const names = [...document.querySelectorAll('.curve-grid text[text-anchor="end"]')].map(
      (one) => one.textContent,
    );
    expect(names.length).toBeGreaterThan(0);
    expect(new Set(names).size).toBe(names.length);
  });
});

// @vitest-environment jsdom
import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { booklets } from "../../../src/exchange/index.ts";
import type { Paper } from "../../../src/exchange/paper/page.ts";
import { toSvgPages } from "../../../src/exchange/paper/svg.ts";
import { CUFF } from "../../../src/exchange/paper/cuff.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { samplePlan } from "../samplePlan.ts";
import { textsOf } from "./reading.ts";

const paperOf = (plan: Plan): Paper => booklets(plan, check(plan, plan.schedule));

describe("SVG", () => {
  it("is well-formed, in true size, with the same texts, whatever signs names hold", () => {
    const paper = paperOf({ ...samplePlan(), title: `<b> & "quotes" \u0000 採` });
    toSvgPages(paper).forEach((source, i) => {
      const page = paper.pages[i]!;
      const document = new DOMParser().parseFromString(source, "image/svg+xml");
      expect(document.querySelector("parsererror")).toBeNull();
      expect(document.documentElement.getAttribute("width")).toBe(`${CUFF.widthMm}mm`);
      const texts = [...document.querySelectorAll("text")].map((node) => node.textContent);
      expect(texts).toEqual(textsOf(page).map((mark) => mark.text));
    });
  });
});

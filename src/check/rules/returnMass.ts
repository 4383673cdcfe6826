import { isReturnLeast } from "../../plan/index.ts";
import { leastWords, listed, mass } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import { capacityThousandths } from "../amounts.ts";
import { boxesIn } from "../boxes.ts";
import type { Walkthrough } from "../walkthrough.ts";
import { closeBelow } from "../thresholds.ts";

/** return-mass: samples and the empty mass of every container that holds one together. */
export const returnMass: JudgeRule = (walkthrough) => {
  const { plan } = walkthrough.prepared;
  const { greatestKg, level } = plan.rules.returnMass;
  const { boxes, grams, most } = returnGrams(walkthrough);
  const over = grams > most;
  if (!over && !closeBelow(grams, most)) return [];
  const isLeast = isReturnLeast(
    plan,
    walkthrough.placed.map(({ task }) => task),
  );
  return [
    finding(
      "return-mass",
      over ? broken(level) : "tight",
      boxes.map((box) => about("container", box.container.id)),
      {
        need: greatestKg,
        have: grams / 1000,
        unit: "kg",
        sentence: `Samples with ${listed(boxes.map((box) => box.container.name))} come to ${leastWords(mass(grams / 1000, "given"), isLeast)}; the ascent vehicle lifts ${mass(most / 1000, "given")}.`,
      },
    ),
  ];
};

/** What comes back, whole grams, with what it is in, and the most that may. */
export function returnGrams(walkthrough: Walkthrough) {
  const boxes = boxesIn(walkthrough);
  return {
    boxes,
    grams: boxes.reduce((sum, box) => sum + box.sampleG + box.emptyG, 0),
    most: capacityThousandths(walkthrough.prepared.plan.rules.returnMass.greatestKg),
  };
}

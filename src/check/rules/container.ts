import { untoldIn } from "../../plan/index.ts";
import { leastWords, listed, mass, volume } from "../../words/index.ts";
import { capacityThousandths } from "../amounts.ts";
import { boxesIn } from "../boxes.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { closeBelow } from "../thresholds.ts";

/** container: mass and volume of samples in each container; where one of them has no number, at least so much is in it. */
export const container: JudgeRule = (walkthrough) =>
  boxesIn(walkthrough).flatMap((box) => {
    const { name, id, capacityKg, volumeL } = box.container;
    const mostG = capacityThousandths(capacityKg);
    const mostMl = capacityThousandths(volumeL);
    const tooHeavy = box.sampleG > mostG;
    const tooLarge = box.sampleMl > mostMl;
    const over = tooHeavy || tooLarge;
    const nearMass = closeBelow(box.sampleG, mostG);
    const nearVolume = closeBelow(box.sampleMl, mostMl);
    if (!over && !nearMass && !nearVolume) return [];
    const byMass = over ? tooHeavy : nearMass;
    const byVolume = over ? tooLarge : nearVolume;
    const sense = "most" as const;
    const least = untoldIn(
      walkthrough.placed.map(({ task }) => task),
      id,
    );
    const parts = [
      ...(byMass
        ? [
            {
              ...{ of: "mass", sense, need: capacityKg, have: box.sampleG / 1000, unit: "kg" as const },
              says: `${leastWords(mass(box.sampleG / 1000, "given"), least.mass)} of samples and takes ${mass(mostG / 1000, "given")}`,
            },
          ]
        : []),
      ...(byVolume
        ? [
            {
              ...{ of: "volume", sense, need: volumeL, have: box.sampleMl / 1000, unit: "L" as const },
              says: `${leastWords(volume(box.sampleMl / 1000, "given"), least.volume)} of samples and takes ${volume(mostMl / 1000, "given")}`,
            },
          ]
        : []),
    ];
    const [first] = parts;
    if (!first) return [];
    return [
      finding("container", over ? "breach" : "tight", [about("container", id)], {
        need: first.need,
        have: first.have,
        unit: first.unit,
        parts: parts.map(({ of, need, have, unit }) => ({ of, sense, need, have, unit })),
        sentence: `${name} holds ${listed(parts.map(({ says }) => says))}.`,
      }),
    ];
  });

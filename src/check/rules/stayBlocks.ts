import { overlaps } from "../../kernel/index.ts";
import { crewName, lasting, listed, met } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";

/** stay-blocks: no EVA overlaps a sleep or meal block of its crew. */
export const stayBlocks: JudgeRule = ({ prepared, outs }) => {
  const { stay, rules } = prepared.plan;
  return outs.flatMap(({ eva, span }) => {
    const outside = { startS: span.egressS, endS: span.ingressS };
    return stay.blocks.flatMap((block) => {
      const resting = eva.crew.filter((member) => block.crew.length === 0 || block.crew.includes(member));
      if (resting.length === 0) return [];
      const clash = overlaps(outside, block);
      const gapS = block.startS - span.ingressS;
      if (!clash && (gapS < 0 || gapS >= rules.tightS)) return [];
      const commonS = Math.min(outside.endS, block.endS) - Math.max(outside.startS, block.startS);
      const whose = `${block.name} of ${listed(resting.map((id) => crewName(prepared.plan, id)))}`;
      const sentence = clash
        ? `${eva.name}, ${met(span.egressS)} to ${met(span.ingressS)}, overlaps ${whose}, ${met(block.startS)} to ${met(block.endS)}.`
        : `${eva.name} is in at ${met(span.ingressS)}, ${lasting(gapS, "down")} before ${whose}.`;
      return [
        finding("stay-blocks", clash ? "breach" : "tight", [about("eva", eva.id), about("block", block.id)], {
          span: { startS: block.startS, endS: block.endS },
          need: 0,
          have: clash ? -commonS : gapS,
          unit: "s",
          sentence,
        }),
      ];
    });
  });
};

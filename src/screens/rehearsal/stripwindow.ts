import { framing, type TimeWindow } from "../../editor/index.ts";
import type { Rehearsed } from "../../session/index.ts";

/**
 * What the strips show: the EVA under way or the next one, as it was planned and as it goes, with all that are out at the same time; all
 * that is placed when none is left.
 */
export function stripWindow({ plan, planned, verdict, standing }: Rehearsed): TimeWindow {
  const { outS, inS } = standing.facts;
  const left = plan.evas.filter((eva) => !inS.has(eva.id));
  const first = left.find((one) => outS.has(one.id)) ?? left[0];
  const outings = [...planned.outings, ...verdict.outings];
  const own = outings.filter(({ eva }) => eva === first?.id);
  const together = new Set(
    outings
      .filter(({ span }) => own.some((one) => one.span.startS < span.endS && span.startS < one.span.endS))
      .map(({ eva }) => eva),
  );
  const spans = outings.filter(({ eva }) => first === undefined || together.has(eva)).map(({ span }) => span);
  return framing(spans, 0.03, { startS: 0, endS: plan.stay.lengthS, leastS: 3600 });
}

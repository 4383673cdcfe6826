import type { Relaxation, Score, TriedRelaxation, WhyReport } from "../answers/index.ts";
import { check } from "../check/index.ts";
import { applyEdit, type Plan, type Schedule } from "../plan/index.ts";
import { drive, type Turn } from "./drive.ts";
import { SLICE_S } from "./packwork.ts";

/** The maker's question why, slice by slice. */
interface WhyRun {
  step(sliceS: number): boolean;
  report(): WhyReport<TriedRelaxation>;
}

/** The answer to a question why about `plan`, with every relaxation judged. */
export async function whyJudged(
  clock: () => number,
  plan: Plan,
  run: WhyRun,
  { report, ...turn }: Turn<"why">,
): Promise<WhyReport> {
  const judged = new Judged(plan);
  const tell = report && ((now: WhyReport<TriedRelaxation>): void => report(judged.report(now)));
  const slices = { step: (sliceS: number) => run.step(sliceS), progress: () => run.report() };
  await drive(clock, slices, SLICE_S, { ...turn, report: tell });
  return judged.report(run.report());
}

/** Lets the judge see every relaxation once; what it finds a breach in does not leave. */
class Judged {
  private readonly plan: Plan;
  private readonly scores = new Map<Schedule, Score>();

  constructor(plan: Plan) {
    this.plan = plan;
  }

  report(report: WhyReport<TriedRelaxation>): WhyReport {
    const relaxations = report.relaxations.flatMap((one): Relaxation[] => {
      let score = this.scores.get(one.schedule);
      if (!score) {
        ({ score } = check(applyEdit(this.plan, one.edit), one.schedule));
        this.scores.set(one.schedule, score);
      }
      return score.breaches === 0 ? [{ ...one, score }] : [];
    });
    return { ...report, relaxations };
  }
}

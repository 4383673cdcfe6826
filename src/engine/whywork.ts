import type { Relaxation, Score, TriedRelaxation, WhyReport } from "../answers/index.ts";
import { check } from "../check/index.ts";
import { applyEdit, type Plan, type Schedule } from "../plan/index.ts";

/** Lets the judge see every relaxation once; what it finds a breach in does not leave. */
export class Judged {
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

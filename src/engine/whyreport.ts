import type { Relaxation, Score, TriedRelaxation, WhyReport } from "../answers/index.ts";
import { check } from "../check/index.ts";
import { applyEdit, type Edit, type Plan, type Schedule } from "../plan/index.ts";

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

/** The report with its edits made on `plan` itself: what came over the wire holds copies, and edits go by identity. */
export function onPlan(plan: Plan, report: WhyReport): WhyReport {
  const onIt = (edit: Edit): Edit => ({
    ...edit,
    changes: edit.changes.map((one) => ({ ...one, before: plan[one.key] }) as (typeof edit.changes)[number]),
  });
  return {
    ...report,
    relaxations: report.relaxations.map((one) => ({ ...one, edit: onIt(one.edit) })),
  };
}

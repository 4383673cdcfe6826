import { type Plan, type Task, tasksById } from "../../plan/index.ts";

/** A day drawn small: times as thousandths of the shown span, so that it is little to keep. */
export interface Picture {
  readonly rows: readonly {
    /** One for each EVA with work on it. */
    readonly outings: readonly (readonly [from: number, to: number])[];
    readonly blocks: readonly (readonly [from: number, to: number, kind: Task["kind"]])[];
  }[];
}

const WHOLE = 1000;

/** The plan's day as a small picture: a row a crew member, from the first to the last placed task. */
export function pictureOf(plan: Plan): Picture {
  const { crew, schedule } = plan;
  const tasks = tasksById(plan);
  const work = schedule.placements.flatMap((one) => {
    const task = tasks.get(one.task);
    return task ? [{ ...one, kind: task.kind, endS: one.startS + task.duration.likelyS }] : [];
  });
  const fromS = Math.min(...work.map((one) => one.startS));
  const spanS = Math.max(1, Math.max(...work.map((one) => one.endS)) - fromS);
  const at = (s: number): number => Math.round(((s - fromS) / spanS) * WHOLE);
  return {
    rows: crew.map(({ id }) => {
      const mine = work.filter((one) => one.crew.includes(id));
      const evas = [...new Set(mine.flatMap(({ eva }) => eva ?? []))];
      return {
        outings: evas.map((eva) => {
          const there = mine.filter((one) => one.eva === eva);
          return [
            at(Math.min(...there.map((one) => one.startS))),
            at(Math.max(...there.map((one) => one.endS))),
          ];
        }),
        blocks: mine.map((one) => [at(one.startS), at(one.endS), one.kind]),
      };
    }),
  };
}

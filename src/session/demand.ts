import type { Plan } from "../plan/index.ts";

/** Crew time that a plan asks for and crew time that it has, seconds. */
export interface DemandAndSupply {
  /** Likely durations times the crew that each task takes; work by command takes none. */
  readonly demandS: number;
  readonly mustS: number;
  readonly tasks: number;
  readonly must: number;
  readonly thereS: number;
  /** Each crew member on each EVA, with the longest time between egress work and ingress work. */
  readonly outings: readonly { readonly eva: string; readonly crew: string; readonly workS: number }[];
}

/** What is asked against what is there, before any way or rest. */
export function demandAndSupply({ tasks, evas }: Pick<Plan, "tasks" | "evas">): DemandAndSupply {
  const demanding = tasks.filter((task) => task.crew.count > 0);
  const sum = (of: typeof demanding): number =>
    of.reduce((total, task) => total + task.duration.likelyS * task.crew.count, 0);
  const must = demanding.filter((task) => task.must);
  const outings = evas.flatMap((eva) => {
    const longestS = Math.min(eva.longestS, eva.latestIngressS - eva.earliestEgressS);
    const workS = Math.max(0, longestS - eva.egressWorkS - eva.ingressWorkS);
    return eva.crew.map((crew) => ({ eva: eva.id, crew, workS }));
  });
  return {
    demandS: sum(demanding),
    mustS: sum(must),
    tasks: demanding.length,
    must: must.length,
    thereS: outings.reduce((total, { workS }) => total + workS, 0),
    outings,
  };
}

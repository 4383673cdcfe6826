import type { Finding } from "../../answers/index.ts";
import { counted, crewName, evaName, listed, taskName } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import type { Placed } from "../placed.ts";
import type { Prepared } from "../prepared.ts";

/**
 * task-crew: as many crew members as asked, all of the EVA's crew, the named ones among them, one with the
 * qualification; a task with crew names an EVA, one without names none. A placement that is none (an unknown task, a
 * task placed twice) is reported here too.
 */
export const taskCrew: JudgeRule = ({ prepared, placed, stray }) => {
  const findings = placed.flatMap((one): Finding[] => {
    const faults = one.task.crew.count === 0 ? faultsOfRemote(one) : faultsOf(prepared, one);
    if (faults.length === 0) return [];
    const distinct = new Set(one.placement.crew).size;
    return [
      finding("task-crew", "breach", [about("task", one.task.id)], {
        span: one.span,
        need: one.task.crew.count,
        have: distinct,
        unit: "count",
        sentence: `${one.task.name} ${listed(faults)}.`,
      }),
    ];
  });
  for (const id of [...new Set(stray.map((placement) => placement.task))].sort()) {
    const known = prepared.tasks.has(id);
    const sentence = known
      ? `${taskName(prepared.plan, id)} is placed more than once; the earliest counts.`
      : `The schedule places ${id}, which is no task of this plan.`;
    const repeated = findings.findIndex((one) => one.subjects[0]!.id === id);
    if (repeated >= 0) {
      const first = findings[repeated]!;
      findings[repeated] = { ...first, sentence: `${first.sentence} ${sentence}` };
    } else findings.push(finding("task-crew", "breach", [about("task", id)], { sentence }));
  }
  return findings;
};

function faultsOf(prepared: Prepared, { task, placement, eva }: Placed): string[] {
  const faults: string[] = [];
  const crew = [...new Set(placement.crew)];
  const { count, named, qualification } = task.crew;
  if (placement.eva === null) faults.push("is on no EVA");
  else if (!eva) faults.push(`is on ${placement.eva}, which is no EVA of this plan`);
  if (crew.length !== count) {
    faults.push(`needs ${counted(count, "crew member")} and has ${crew.length === 0 ? "none" : crew.length}`);
  }
  const strangers = eva ? crew.filter((member) => !eva.crew.includes(member)) : [];
  if (strangers.length > 0) {
    const who = listed(strangers.sort().map((id) => crewName(prepared.plan, id)));
    faults.push(`has ${who}, not of the crew of ${evaName(prepared.plan, eva!.id)}`);
  }
  const missing = named.filter((member) => !crew.includes(member));
  if (missing.length > 0)
    faults.push(`asks for ${listed(missing.map((id) => crewName(prepared.plan, id)))} by name`);
  if (qualification !== undefined) {
    const holds = crew.some((id) => prepared.crew.get(id)?.qualifications.includes(qualification));
    if (!holds) faults.push(`needs somebody qualified for ${qualification}`);
  }
  return faults;
}

function faultsOfRemote({ placement }: Placed): string[] {
  return [
    ...(placement.eva === null ? [] : ["needs no crew and must not be on an EVA"]),
    ...(placement.crew.length === 0 ? [] : ["needs no crew members and has some"]),
  ];
}

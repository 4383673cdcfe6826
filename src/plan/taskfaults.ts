import type { FaultBook } from "./faultbook.ts";
import type { Fault } from "./fault.ts";
import type { Ids } from "./ids.ts";
import type { Plan } from "./plan.ts";
import { remedyHost } from "./remedy.ts";
import type { Task } from "./task.ts";

/** Puts down the faults of tasks whose fields are right one by one. */
export function taskFaults(plan: Plan, ids: Ids, book: FaultBook): void {
  const numbers = new Set<string>();
  plan.tasks.forEach((task, i) => {
    const at = `tasks.${i}`;
    const number = task.number?.toUpperCase();
    if (number !== undefined) {
      if (numbers.has(number))
        book.faults.push({ path: `${at}.number`, message: `another task has the number "${task.number}"` });
      numbers.add(number);
    }
    if (Array.isArray(task.sample?.bags)) book.once(`${at}.sample.bags`, task.sample.bags);
    crewAndLength(task, at, book);
    whoAndWhere(task, at, ids, book);
    windows(task, at, book);
    sun(task, at, book);
    things(task, at, ids, book);
    book.refer(ids.tasks, "task", `${at}.mishap.remedy.after`, task.mishap?.remedy?.after);
    book.faults.push(...remedyFaults(plan, task, `${at}.mishap`));
  });
}

function crewAndLength(task: Task, at: string, { faults }: FaultBook): void {
  if (task.crew.count > 0 && task.place === undefined) {
    faults.push({ path: `${at}.place`, message: "a task with crew needs a place" });
  }
  if (task.crew.named.length > task.crew.count) {
    faults.push({
      path: `${at}.crew.named`,
      message: `names ${task.crew.named.length} crew members for a task of ${task.crew.count}`,
    });
  }
  faults.push(...orderFaults(task.duration, `${at}.duration`));
}

/** Cases of a duration that do not stand in their order. */
function orderFaults({ lowS, likelyS, highS }: Task["duration"], path: string): Fault[] {
  if (lowS !== undefined && lowS > likelyS)
    return [{ path, message: `low (${lowS} s) must not be longer than likely (${likelyS} s)` }];
  if (highS !== undefined && highS < likelyS)
    return [{ path, message: `high (${highS} s) must not be shorter than likely (${likelyS} s)` }];
  return [];
}

function whoAndWhere(task: Task, at: string, { places, crew }: Ids, { refer, once }: FaultBook): void {
  once(`${at}.crew.named`, task.crew.named);
  refer(places, "place", `${at}.place`, task.place);
  refer(places, "place", `${at}.endPlace`, task.endPlace);
  task.crew.named.forEach((member, k) => refer(crew, "crew member", `${at}.crew.named.${k}`, member));
}

function windows(task: Task, at: string, { faults, ordered }: FaultBook): void {
  task.windows.forEach((window, k) => ordered(`${at}.windows.${k}`, window));
  if (task.pet) {
    const { startS = 0, endS } = task.pet;
    if (endS !== undefined) ordered(`${at}.pet`, { startS, endS });
    if (task.crew.count === 0)
      faults.push({ path: `${at}.pet`, message: "a task without crew has no egress to count from" });
  }
}

function sun(task: Task, at: string, { faults }: FaultBook): void {
  if (task.sun && task.sun.greatestDeg <= task.sun.leastDeg) {
    faults.push({ path: `${at}.sun`, message: "greatestDeg must be above leastDeg" });
  }
  if (task.sunAngle && task.sunAngle.greatestDeg <= task.sunAngle.leastDeg) {
    faults.push({ path: `${at}.sunAngle`, message: "greatestDeg must be above leastDeg" });
  }
  if (task.sunAngle && task.sunAngle.facingDeg === undefined && !isWalk(task)) {
    faults.push({
      path: `${at}.sunAngle.facingDeg`,
      message: "is needed where no end place gives a heading",
    });
  }
}

function things(
  task: Task,
  at: string,
  { equipment, containers, evas, crew }: Ids,
  { refer, faults }: FaultBook,
): void {
  task.equipment.forEach((use, k) =>
    refer(equipment, "equipment", `${at}.equipment.${k}.equipment`, use.equipment),
  );
  if (task.sample && task.bringsNothing)
    faults.push({ path: `${at}.bringsNothing`, message: "a task that brings nothing back has no sample" });
  refer(containers, "container", `${at}.sample.container`, task.sample?.container);
  refer(evas, "EVA", `${at}.pin.eva`, task.pin?.eva);
  task.pin?.crew?.forEach((member, k) => refer(crew, "crew member", `${at}.pin.crew.${k}`, member));
}

/** A remedy of what loses nothing, one that nobody is there to do, or with durations out of order. */
function remedyFaults({ tasks }: Plan, task: Task, path: string): Fault[] {
  const { mishap } = task;
  if (!mishap?.remedy) return [];
  const { duration } = mishap.remedy;
  const host = tasks.find(({ id }) => id === remedyHost(task));
  return [
    ...(mishap.spoils === true
      ? []
      : [{ path: `${path}.remedy`, message: "makes good what loses nothing: set spoils, or give extraS" }]),
    ...(host?.crew.count === 0
      ? [
          {
            path: `${path}.remedy.after`,
            message: `nobody is at work in "${host.id}": name a task with crew`,
          },
        ]
      : []),
    ...orderFaults(duration, `${path}.remedy.duration`),
  ];
}

/** True when the task leads from one place to another. */
function isWalk({ place, endPlace }: Task): boolean {
  return place !== undefined && endPlace !== undefined && place !== endPlace;
}

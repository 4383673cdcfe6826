import type { Eva } from "./crew.ts";
import type { Fault } from "./fault.ts";
import { groundFaults } from "./ground.ts";
import type { Group } from "./group.ts";
import { legFaults } from "./legs.ts";
import type { Plan } from "./plan.ts";
import { siteLoadFaults } from "./siteload.ts";

type Named = { readonly id: string };

/** Faults of a plan whose fields are right one by one: ids used twice, ids that name nothing, ends before starts. */
export function referenceFaults(plan: Plan): Fault[] {
  const faults: Fault[] = [];
  const known = (list: readonly Named[], path: string): ReadonlySet<string> => {
    const ids = new Set<string>();
    list.forEach((item, index) => {
      if (ids.has(item.id))
        faults.push({ path: `${path}.${index}.id`, message: `"${item.id}" is used twice` });
      ids.add(item.id);
    });
    return ids;
  };
  const places = known(plan.site.places, "site.places");
  const crew = known(plan.crew, "crew");
  const suits = known(plan.suits, "suits");
  const evas = known(plan.evas, "evas");
  const equipment = known(plan.equipment, "equipment");
  const containers = known(plan.containers, "containers");
  const tasks = known(plan.tasks, "tasks");
  known(plan.links, "links");
  known(plan.variants, "variants");
  known(plan.comments, "comments");
  known(plan.signoffs, "signoffs");
  known(plan.hands, "hands");
  known(plan.site.keepOuts, "site.keepOuts");
  known(plan.stay.blocks, "stay.blocks");
  known(plan.stay.relayPasses, "stay.relayPasses");

  const refer = (
    ids: ReadonlySet<string>,
    what: string,
    path: string,
    id: string | null | undefined,
  ): void => {
    if (id !== null && id !== undefined && !ids.has(id))
      faults.push({ path, message: `there is no ${what} "${id}"` });
  };
  const ordered = (path: string, span: { readonly startS: number; readonly endS: number }): void => {
    if (span.endS <= span.startS)
      faults.push({ path, message: `the end (${span.endS} s) must be after the start (${span.startS} s)` });
  };
  const once = (path: string, ids: readonly string[]): void => {
    if (new Set(ids).size !== ids.length) faults.push({ path, message: "names the same one twice" });
  };

  faults.push(...siteLoadFaults(plan));
  if (plan.ground) faults.push(...groundFaults(plan.ground, plan.site.places.length));
  const landers = plan.site.places.filter((place) => place.kind === "lander").length;
  if (landers !== 1)
    faults.push({ path: "site.places", message: `exactly one place is the lander, found ${landers}` });
  plan.site.legs.forEach((leg, i) => {
    refer(places, "place", `site.legs.${i}.from`, leg.from);
    refer(places, "place", `site.legs.${i}.to`, leg.to);
  });
  faults.push(...legFaults(plan.site.legs));
  plan.site.keepOuts.forEach((keepOut, i) => {
    refer(tasks, "task", `site.keepOuts.${i}.afterTask`, keepOut.afterTask);
    keepOut.exemptTasks.forEach((task, k) =>
      refer(tasks, "task", `site.keepOuts.${i}.exemptTasks.${k}`, task),
    );
  });
  plan.stay.blocks.forEach((block, i) => {
    ordered(`stay.blocks.${i}`, block);
    block.crew.forEach((member, k) => refer(crew, "crew member", `stay.blocks.${i}.crew.${k}`, member));
  });
  plan.stay.relayPasses.forEach((pass, i) => ordered(`stay.relayPasses.${i}`, pass));
  plan.crew.forEach((member, i) => refer(suits, "suit", `crew.${i}.suit`, member.suit));
  plan.evas.forEach((eva, i) => {
    once(`evas.${i}.crew`, eva.crew);
    eva.crew.forEach((member, k) => refer(crew, "crew member", `evas.${i}.crew.${k}`, member));
    for (const [member, suit] of Object.entries(eva.suits)) {
      const path = `evas.${i}.suits.${member}`;
      refer(crew, "crew member", path, member);
      if (crew.has(member) && !eva.crew.includes(member))
        faults.push({ path, message: `"${member}" does not go out on this EVA` });
      refer(suits, "suit", path, suit);
    }
    faults.push(...boundFaults(eva, `evas.${i}`));
  });
  if (plan.stay.lengthS === 0)
    faults.push({ path: "stay.lengthS", message: "a stay of 0 s has no time for anything" });
  const numbers = new Set<string>();
  plan.tasks.forEach((task, i) => {
    const at = `tasks.${i}`;
    const number = task.number?.toUpperCase();
    if (number !== undefined) {
      if (numbers.has(number))
        faults.push({ path: `${at}.number`, message: `another task has the number "${task.number}"` });
      numbers.add(number);
    }
    if (Array.isArray(task.sample?.bags)) once(`${at}.sample.bags`, task.sample.bags);
    if (task.crew.count > 0 && task.place === undefined) {
      faults.push({ path: `${at}.place`, message: "a task with crew needs a place" });
    }
    if (task.crew.named.length > task.crew.count) {
      faults.push({
        path: `${at}.crew.named`,
        message: `names ${task.crew.named.length} crew members for a task of ${task.crew.count}`,
      });
    }
    const { lowS, likelyS, highS } = task.duration;
    if ((lowS ?? likelyS) > likelyS || (highS ?? likelyS) < likelyS) {
      faults.push({ path: `${at}.duration`, message: "must run low <= likely <= high" });
    }
    once(`${at}.crew.named`, task.crew.named);
    refer(places, "place", `${at}.place`, task.place);
    refer(places, "place", `${at}.endPlace`, task.endPlace);
    task.crew.named.forEach((member, k) => refer(crew, "crew member", `${at}.crew.named.${k}`, member));
    task.windows.forEach((window, k) => ordered(`${at}.windows.${k}`, window));
    if (task.pet) {
      const { startS = 0, endS } = task.pet;
      if (endS !== undefined) ordered(`${at}.pet`, { startS, endS });
      if (task.crew.count === 0)
        faults.push({ path: `${at}.pet`, message: "a task without crew has no egress to count from" });
    }
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
    task.equipment.forEach((use, k) =>
      refer(equipment, "equipment", `${at}.equipment.${k}.equipment`, use.equipment),
    );
    refer(containers, "container", `${at}.sample.container`, task.sample?.container);
    refer(evas, "EVA", `${at}.pin.eva`, task.pin?.eva);
    task.pin?.crew?.forEach((member, k) => refer(crew, "crew member", `${at}.pin.crew.${k}`, member));
  });
  plan.links.forEach((link, i) => {
    const at = `links.${i}`;
    if (link.type === "lag") {
      refer(tasks, "task", `${at}.from.task`, link.from.task);
      refer(tasks, "task", `${at}.to.task`, link.to.task);
      if (link.from.task === link.to.task) faults.push({ path: at, message: "links a task with itself" });
      if (link.leastS === undefined && link.greatestS === undefined && link.needs === "none") {
        faults.push({ path: at, message: "says nothing: give a least or a greatest lag, or a need" });
      }
      if (link.leastS !== undefined && link.greatestS !== undefined && link.leastS > link.greatestS) {
        faults.push({
          path: at,
          message: `the least lag (${link.leastS} s) is above the greatest (${link.greatestS} s)`,
        });
      }
    } else {
      link.tasks.forEach((task, k) => refer(tasks, "task", `${at}.tasks.${k}`, task));
      if (link.tasks[0] === link.tasks[1]) faults.push({ path: at, message: "links a task with itself" });
    }
  });
  known(plan.groups, "groups");
  const shared = new Map<string, string>();
  plan.groups.forEach((group, i) => {
    const at = `groups.${i}`;
    once(`${at}.tasks`, group.tasks);
    group.tasks.forEach((task, k) => refer(tasks, "task", `${at}.tasks.${k}`, task));
    faults.push(...groupFaults(group, at));
    if (group.shares.length === 0) return;
    group.tasks.forEach((task, k) => {
      const other = shared.get(task);
      if (other !== undefined)
        faults.push({
          path: `${at}.tasks.${k}`,
          message: `what "${task}" counts is said by the shares of "${other}" already`,
        });
      shared.set(task, group.id);
    });
  });
  const schedules = [
    { path: "schedule", schedule: plan.schedule },
    ...plan.variants.map((variant, i) => ({ path: `variants.${i}.schedule`, schedule: variant.schedule })),
  ];
  for (const { path, schedule } of schedules) {
    const placed = new Set<string>();
    schedule.placements.forEach((placement, i) => {
      const at = `${path}.placements.${i}`;
      if (placed.has(placement.task))
        faults.push({ path: `${at}.task`, message: `"${placement.task}" is placed twice` });
      placed.add(placement.task);
      refer(tasks, "task", `${at}.task`, placement.task);
      refer(evas, "EVA", `${at}.eva`, placement.eva);
      once(`${at}.crew`, placement.crew);
      placement.crew.forEach((member, k) => refer(crew, "crew member", `${at}.crew.${k}`, member));
    });
  }
  return faults;
}

/** Bounds of an EVA between which nobody could even go out and come in again. */
function boundFaults(eva: Eva, path: string): Fault[] {
  const { earliestEgressS, latestIngressS, longestS, egressWorkS, ingressWorkS } = eva;
  const openS = latestIngressS - earliestEgressS;
  const tooLong = (lastsS: number, what: string): Fault[] =>
    egressWorkS + ingressWorkS <= lastsS
      ? []
      : [
          {
            path,
            message: `egress and ingress work (${egressWorkS} s and ${ingressWorkS} s) take more than ${what} (${lastsS} s)`,
          },
        ];
  return [
    ...(longestS === 0
      ? [{ path: `${path}.longestS`, message: "an EVA of 0 s at the longest cannot be flown" }]
      : tooLong(longestS, "the EVA may last")),
    ...(openS <= 0
      ? [
          {
            path,
            message: `the latest ingress (${latestIngressS} s) must be after the earliest egress (${earliestEgressS} s)`,
          },
        ]
      : tooLong(openS, "there is from earliest egress to latest ingress")),
  ];
}

/** Numbers of a group that cannot all hold, or shares that rise. */
function groupFaults({ tasks, least, most, shares }: Group, path: string): Fault[] {
  return [
    ...(least > tasks.length
      ? [{ path: `${path}.least`, message: `asks for ${least} of ${tasks.length} tasks` }]
      : []),
    ...(most !== undefined && least > most
      ? [{ path: `${path}.least`, message: `the least (${least}) is above the most (${most})` }]
      : []),
    ...shares.flatMap((share, k) =>
      k > 0 && share > shares[k - 1]!
        ? [{ path: `${path}.shares.${k}`, message: `a later one counts no more than one before: ${share} %` }]
        : [],
    ),
  ];
}

/** True when the task leads from one place to another. */
function isWalk({ place, endPlace }: Plan["tasks"][number]): boolean {
  return place !== undefined && endPlace !== undefined && place !== endPlace;
}

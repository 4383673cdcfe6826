import type { Eva } from "./crew.ts";
import type { Fault } from "./fault.ts";
import { type FaultBook, faultBook } from "./faultbook.ts";
import { groundFaults } from "./ground.ts";
import type { Group } from "./group.ts";
import type { Ids } from "./ids.ts";
import { legFaults } from "./legs.ts";
import type { Plan } from "./plan.ts";
import { siteLoadFaults } from "./siteload.ts";
import type { LagLink } from "./task.ts";
import { taskFaults } from "./taskfaults.ts";

/** Between which moments sun and Earth are known, UTC ms. */
const SKY_FROM_MS = Date.UTC(1900, 0, 1);
const SKY_TO_MS = Date.UTC(2100, 0, 1);

/** Faults of a plan whose fields are right one by one: ids used twice, ids that name nothing, ends before starts. */
export function referenceFaults(plan: Plan): Fault[] {
  const book = faultBook();
  const ids = idsOf(plan, book);
  siteFaults(plan, ids, book);
  stayFaults(plan, ids, book);
  crewFaults(plan, ids, book);
  taskFaults(plan, ids, book);
  linkFaults(plan, ids, book);
  groupsFaults(plan, ids, book);
  scheduleFaults(plan, ids, book);
  return book.faults;
}

function idsOf(plan: Plan, { known }: FaultBook): Ids {
  const ids = {
    places: known(plan.site.places, "site.places"),
    crew: known(plan.crew, "crew"),
    suits: known(plan.suits, "suits"),
    evas: known(plan.evas, "evas"),
    equipment: known(plan.equipment, "equipment"),
    containers: known(plan.containers, "containers"),
    tasks: known(plan.tasks, "tasks"),
  };
  // Nothing refers to these.
  known(plan.links, "links");
  known(plan.variants, "variants");
  known(plan.comments, "comments");
  known(plan.signoffs, "signoffs");
  known(plan.hands, "hands");
  known(plan.site.keepOuts, "site.keepOuts");
  known(plan.stay.blocks, "stay.blocks");
  known(plan.stay.relayPasses, "stay.relayPasses");
  return ids;
}

function siteFaults(plan: Plan, { places, tasks }: Ids, { faults, refer }: FaultBook): void {
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
}

function stayFaults(plan: Plan, { crew }: Ids, { faults, ordered, refer }: FaultBook): void {
  plan.stay.blocks.forEach((block, i) => {
    ordered(`stay.blocks.${i}`, block);
    block.crew.forEach((member, k) => refer(crew, "crew member", `stay.blocks.${i}.crew.${k}`, member));
  });
  plan.stay.relayPasses.forEach((pass, i) => ordered(`stay.relayPasses.${i}`, pass));
  faults.push(...skyFaults(plan));
}

/** A stay in which nobody knows where the sun and the Earth stand, though the plan says that they are computed (physics/sky.ts). */
function skyFaults({ body, stay }: Plan): Fault[] {
  const beginsMs = Date.parse(stay.touchdownUtc);
  const known = beginsMs >= SKY_FROM_MS && beginsMs + stay.lengthS * 1000 <= SKY_TO_MS;
  return body.ephemeris === "none" || known
    ? []
    : [
        {
          path: "stay.touchdownUtc",
          message:
            "sun and Earth are known from 1900 to 2100 only: stay inside that, or set the body's ephemeris to none",
        },
      ];
}

function crewFaults(plan: Plan, { crew, suits }: Ids, { faults, once, refer }: FaultBook): void {
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
}

function linkFaults(plan: Plan, { tasks }: Ids, { faults, refer }: FaultBook): void {
  plan.links.forEach((link, i) => {
    const at = `links.${i}`;
    if (link.type === "lag") {
      refer(tasks, "task", `${at}.from.task`, link.from.task);
      refer(tasks, "task", `${at}.to.task`, link.to.task);
      faults.push(...lagFaults(link, at));
      return;
    }
    link.tasks.forEach((task, k) => refer(tasks, "task", `${at}.tasks.${k}`, task));
    if (link.tasks[0] === link.tasks[1]) faults.push({ path: at, message: "links a task with itself" });
  });
}

function lagFaults(link: LagLink, path: string): Fault[] {
  const faults: Fault[] = [];
  if (link.from.task === link.to.task) faults.push({ path, message: "links a task with itself" });
  if (link.leastS === undefined && link.greatestS === undefined && link.needs === "none") {
    faults.push({ path, message: "says nothing: give a least or a greatest lag, or a need" });
  }
  if (link.leastS !== undefined && link.greatestS !== undefined && link.leastS > link.greatestS) {
    faults.push({
      path,
      message: `the least lag (${link.leastS} s) is above the greatest (${link.greatestS} s)`,
    });
  }
  return faults;
}

function groupsFaults(plan: Plan, { tasks }: Ids, { faults, known, once, refer }: FaultBook): void {
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
}

function scheduleFaults(plan: Plan, { tasks, evas, crew }: Ids, { faults, once, refer }: FaultBook): void {
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

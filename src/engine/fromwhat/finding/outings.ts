import type { Outing } from "../../../answers/index.ts";
import { ruleSource, suitIdOn } from "../../../plan/index.ts";
import { clockToSecond, nameIn } from "../../../words/index.ts";
import { stretchName } from "../words.ts";
import {
  type FindingOfDay,
  type Behind,
  given,
  madeOf,
  moment,
  subject,
  sumOf,
  table,
  type Term,
  timeBetween,
} from "./terms.ts";
import { whose } from "./suits.ts";

const S3 = "judge: egress in time for the first task, ingress when the last one is home (S3)";

/** Egress and ingress of an EVA, from what its crew do first and last. */
export function boundsBehind(day: FindingOfDay): Behind {
  const { plan, verdict, finding } = day;
  const eva = plan.evas.find(({ id }) => id === subject(finding, "eva"));
  const outings = verdict.outings.filter((one) => one.eva === eva?.id);
  const span = outings[0]?.span;
  if (!eva || !span) return {};
  const egress = egressOf(day, outings, eva.egressWorkS);
  const ingress = ingressOf(day, outings, eva.ingressWorkS);
  const length = madeOf(
    "time outside",
    span.endS - span.startS,
    "s",
    "ingress - egress",
    { ingress: moment(["as below", span.endS]), egress: moment(["as below", span.startS]) },
    S3,
  );
  const worst = (finding.parts ?? []).find(
    ({ need, have }) => need === finding.need && have === finding.have,
  );
  const limits: Readonly<Record<string, readonly [number, string]>> = {
    "earliest egress": [eva.earliestEgressS, `plan: earliest egress of ${eva.name}`],
    touchdown: [0, "touchdown"],
    "latest ingress": [eva.latestIngressS, `plan: latest ingress of ${eva.name}`],
    longest: [eva.longestS, `plan: longest duration of ${eva.name}`],
    liftoff: [plan.stay.lengthS, "plan: length of the stay"],
  };
  const limit = limits[worst?.of ?? ""];
  if (!worst || !limit) return { more: [egress, ingress, length] };
  const have =
    worst.of === "longest" ? length : ["earliest egress", "touchdown"].includes(worst.of) ? egress : ingress;
  return {
    need: given(worst.of, limit[0], "s", limit[1]),
    have,
    more: [egress, ingress, length].filter((one) => one !== have),
  };
}

type Outings = readonly Outing[];

function egressOf({ plan, verdict }: FindingOfDay, outings: Outings, workS: number) {
  const first = outings.flatMap((outing) => {
    const at = outing.stretches.findIndex(({ kind }) => kind === "task");
    const way = outing.stretches.slice(0, at).find(({ kind }) => kind === "traverse");
    const task = outing.stretches[at];
    if (!task) return [];
    const wayS = way ? way.span.endS - way.span.startS : 0;
    return [{ outing, task, wayS, atS: task.span.startS - wayS - workS }];
  });
  const decides = first.reduce((a, b) => (b.atS < a.atS ? b : a), first[0]!);
  const shared = outings[0]!.span.startS;
  const leftS = verdict.outings.length > 0 ? decides.atS - shared : 0;
  return madeOf(
    "egress",
    shared,
    "s MET",
    leftS === 0 ? "begins - way - work" : "begins - way - work - before",
    {
      begins: moment([
        `${stretchName(plan, decides.task)} begins, ${nameIn(plan.crew, decides.outing.crew)}`,
        decides.task.span.startS,
      ]),
      way: ["s of the way there", decides.wayS],
      work: ["s of egress work", workS],
      ...(leftS === 0 ? {} : { before: ["s that they leave before they have to", leftS] as Term }),
    },
    S3,
  );
}

function ingressOf({ plan }: FindingOfDay, outings: Outings, workS: number) {
  const last = outings.flatMap((outing) => {
    const at = outing.stretches.findLastIndex(({ kind }) => kind === "task");
    const task = outing.stretches[at];
    if (!task) return [];
    const way = outing.stretches.slice(at + 1).find(({ kind }) => kind === "traverse");
    const wayS = way ? way.span.endS - way.span.startS : 0;
    return [{ outing, task, wayS, atS: task.span.endS + wayS + workS }];
  });
  const decides = last.reduce((a, b) => (b.atS > a.atS ? b : a), last[0]!);
  const inS = outings[0]!.span.endS;
  const restS = inS - decides.atS;
  return madeOf(
    "ingress complete",
    inS,
    "s MET",
    restS === 0 ? "ends + way + work" : "ends + way + work + after",
    {
      ends: moment([
        `${stretchName(plan, decides.task)} ends, ${nameIn(plan.crew, decides.outing.crew)}`,
        decides.task.span.endS,
      ]),
      way: ["s of the way home", decides.wayS],
      work: ["s of ingress work", workS],
      ...(restS === 0 ? {} : { after: ["s that they leave after that", restS] as Term }),
    },
    S3,
  );
}

/** The block and the EVA beside it. */
export function blocksBehind(day: FindingOfDay): Behind {
  const { plan, verdict, finding } = day;
  const block = plan.stay.blocks.find(({ id }) => id === subject(finding, "block"));
  const eva = plan.evas.find(({ id }) => id === subject(finding, "eva"));
  const outings = verdict.outings.filter((one) => one.eva === eva?.id);
  const span = outings[0]?.span;
  if (!block || !span || !eva || finding.have === null) return {};
  const clash = finding.level === "breach";
  const earlier: Term = clash
    ? span.startS > block.startS
      ? ["egress", span.startS]
      : [`${block.name} begins`, block.startS]
    : ["ingress complete", span.endS];
  const later: Term = clash
    ? span.endS < block.endS
      ? ["ingress complete", span.endS]
      : [`${block.name} ends`, block.endS]
    : [`${block.name} begins`, block.startS];
  const between = timeBetween(
    clash ? "outside in the block, less than none to spare" : "before the block",
    earlier,
    later,
    S3,
  );
  return {
    need: given("to spare at least", 0, "s", "an EVA may not overlap a block of its crew"),
    have: clash ? { ...between, value: -between.value, formula: "-(later - earlier)" } : between,
    more: [egressOf(day, outings, eva.egressWorkS), ingressOf(day, outings, eva.ingressWorkS)],
  };
}

/** Time outside in the stay, EVA by EVA. */
export function dutyBehind({ plan, verdict, finding }: FindingOfDay): Behind {
  const own = verdict.outings.filter((one) => one.crew === subject(finding, "crew"));
  const terms = own.map(({ eva, span }): Term => [
    `${nameIn(plan.evas, eva)}, ${clockToSecond(span.startS)} to ${clockToSecond(span.endS)}`,
    span.endS - span.startS,
  ]);
  return {
    need: given("time outside at most", plan.rules.duty.stayS, "s", ruleSource(plan, "duty")),
    have: sumOf("time outside", "s", terms, "judge: from egress to ingress complete"),
  };
}

/** The outings in a suit, in order of egress. */
function wornIn({ plan, verdict }: FindingOfDay, suit: string): Outings {
  return verdict.outings
    .filter(({ crew, eva }) => {
      const outing = plan.evas.find(({ id }) => id === eva);
      return outing !== undefined && suitIdOn(plan, outing, crew) === suit;
    })
    .toSorted((a, b) => a.span.startS - b.span.startS);
}

/** From ingress to the next egress of a crew member, or of somebody else in the same suit. */
export function rechargeBehind(day: FindingOfDay): Behind {
  const { plan, verdict, finding } = day;
  const suit = subject(finding, "suit");
  const outings = suit === "" ? verdict.outings : wornIn(day, suit);
  const crew = subject(finding, "crew");
  const of = (nth: number) =>
    outings.find((one) => one.eva === subject(finding, "eva", nth) && (suit !== "" || one.crew === crew));
  const [before, next] = [of(0), of(1)];
  if (!before || !next) return {};
  return {
    need: given("between EVAs at least", plan.rules.recharge.leastS, "s", ruleSource(plan, "recharge")),
    have: timeBetween(
      "between EVAs",
      [`ingress complete, ${nameIn(plan.evas, before.eva)}`, before.span.endS],
      [`egress, ${nameIn(plan.evas, next.eva)}`, next.span.startS],
      S3,
    ),
  };
}

/** Who wears a suit when. */
export function wornBehind(day: FindingOfDay): Behind {
  const { plan, finding } = day;
  const suit = subject(finding, "suit");
  const rows = wornIn(day, suit).map(({ crew, eva, span }) => [
    `${nameIn(plan.crew, crew)}, ${nameIn(plan.evas, eva)}`,
    clockToSecond(span.startS),
    clockToSecond(span.endS),
  ]);
  return { sums: table(nameIn(plan.suits, suit), ["Worn by", "egress, MET", "ingress, MET"], rows) };
}

/** Metres walked, stretch by stretch. */
export function walkedBehind(day: FindingOfDay): Behind {
  const { plan, verdict, finding } = day;
  const inOne = finding.rule === "eva-distance";
  const outings = verdict.outings.filter(
    (one) => one.crew === subject(finding, "crew") && (!inOne || one.eva === subject(finding, "eva")),
  );
  const terms = outings.flatMap(({ eva, stretches }) =>
    stretches.flatMap((stretch): Term[] =>
      stretch.walkM > 0
        ? [[`${inOne ? "" : `${nameIn(plan.evas, eva)}, `}${stretchName(plan, stretch)}`, stretch.walkM]]
        : [],
    ),
  );
  const { evaM, stayM, source } = plan.rules.distance;
  return {
    need: given("walked at most", inOne ? evaM : stayM, "m", source),
    have: sumOf("walked", "m", terms, "terrain/ways, and what is walked inside tasks; each rounded up"),
  };
}

/** The longest stretch of work without a rest, step by step. */
export function workBehind(day: FindingOfDay): Behind {
  const { plan, verdict, finding } = day;
  const outing = verdict.outings.find(
    (one) => one.eva === subject(finding, "eva") && one.crew === subject(finding, "crew"),
  );
  const { span } = finding;
  if (!outing || !span) return {};
  const { longestS, restS, source: rules } = plan.rules.work;
  const inside = outing.stretches.filter(
    (one) => one.span.startS >= span.startS && one.span.endS <= span.endS,
  );
  const terms = inside.map((one): Term => [stretchName(plan, one), one.span.endS - one.span.startS]);
  const source = `judge: work and walking, and pauses shorter than ${restS} s between them`;
  const sum = sumOf("work without a rest", "s", terms, source);
  return {
    need: given("work without a rest at most", longestS, "s", rules),
    // Stretches of a schedule that cannot be walked lie over each other: from end to end is what counts.
    have:
      sum.value === span.endS - span.startS
        ? sum
        : timeBetween("work without a rest", ["begins", span.startS], ["ends", span.endS], source),
    sums: table(
      `Outing of ${whose(day)}`,
      ["Stretch", "from MET", "h:mm:ss", "counts, s"],
      outing.stretches.map((one) => [
        stretchName(plan, one),
        clockToSecond(one.span.startS),
        clockToSecond(one.span.endS - one.span.startS),
        inside.includes(one) ? one.span.endS - one.span.startS : 0,
      ]),
    ),
  };
}

const STORES = {
  oxygen: { consumable: "oxygen", key: "oxygenKg", unit: "kg" },
  water: { consumable: "water", key: "waterKg", unit: "kg" },
  energy: { consumable: "battery", key: "batteryWh", unit: "Wh" },
} as const;

/** What recharges draw, suit by suit, of the store that is shortest. */
export function storesBehind(day: FindingOfDay): Behind {
  const { plan, verdict, finding } = day;
  const worst = finding.parts?.[0];
  if (!worst) return {};
  // The last outing in a suit is followed by no recharge.
  const recharged = plan.suits.flatMap(({ id }) => wornIn(day, id).slice(0, -1));
  const who = (one: (typeof recharged)[number]): string =>
    `${nameIn(plan.crew, one.crew)} after ${nameIn(plan.evas, one.eva)}`;
  const source = "judge: recharges before later EVAs, as consumed on the earlier one";
  const store = STORES[worst.of as keyof typeof STORES] as (typeof STORES)[keyof typeof STORES] | undefined;
  if (!store)
    return {
      need: sumOf(
        "absorbent changes",
        "count",
        recharged.map((one): Term => [who(one), 1]),
        source,
      ),
      have: given(
        "absorbent changes held",
        plan.stores.absorbentChanges,
        "count",
        "plan: stores of the lander",
      ),
    };
  const terms = recharged.map((one): Term => {
    const track = verdict.margins.find(
      ({ eva, crew, consumable }) => eva === one.eva && crew === one.crew && consumable === store.consumable,
    );
    return [who(one), track ? track.stock - track.points.at(-1)!.value : 0];
  });
  return {
    need: sumOf(`${worst.of} for recharges`, store.unit, terms, source),
    have: given(`${worst.of} held`, plan.stores[store.key], store.unit, "plan: stores of the lander"),
  };
}

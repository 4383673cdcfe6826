import { ledgerOf } from "../../../check/index.ts";
import type { Explained } from "../../../kernel/index.ts";
import { type Consumable, CONSUMABLES } from "../../../physics/index.ts";
import { ruleSource, suitOn } from "../../../plan/index.ts";
import { gaitsOf, homeOf, stops, waysOf } from "../../../terrain/index.ts";
import { fromHeat, fromLeft } from "../left.ts";
import { stretchName, UNITS } from "../words.ts";
import { nameIn, watts } from "../../../words/index.ts";
import {
  type FindingOfDay,
  type Behind,
  given,
  madeOf,
  subject,
  sumOf,
  type Term,
  timeBetween,
} from "./terms.ts";

/** What is left at ingress, the sum of the suit's ledger, against the reserve. */
export function reserveBehind(consumable: Consumable) {
  return ({ plan, schedule, finding }: FindingOfDay): Behind => {
    const eva = subject(finding, "eva");
    const crew = subject(finding, "crew");
    const ledger = ledgerOf(plan, schedule, eva, crew);
    const left = fromLeft(plan, schedule, eva, crew, consumable, null);
    if (!ledger || !left) return {};
    const { per, unit } = UNITS[consumable];
    const share = ledger.suit.reserve[consumable];
    const need = madeOf(
      "reserve",
      ledger.reserve[consumable] / per,
      unit,
      `Math.ceil(share * stock * ${per}) / ${per}`,
      { share: ["of the stock, suit", share], stock: [unit, ledger.full[consumable] / per] },
      `reserve: ${ruleSource(plan, "reserve")}`,
    );
    const [have, ...more] = left.figures;
    return { need, ...(have ? { have } : {}), more, ...(left.sums ? { sums: left.sums } : {}) };
  };
}

/** Heat stored at its most: what came in over the cooling since there was last none. */
export function heatBehind({ plan, schedule, finding }: FindingOfDay): Behind {
  const eva = subject(finding, "eva");
  const crew = subject(finding, "crew");
  const ledger = ledgerOf(plan, schedule, eva, crew);
  const heat = fromHeat(plan, schedule, eva, crew);
  if (!ledger || !heat) return {};
  const { lines } = ledger;
  const cooling = Math.floor(ledger.suit.coolingW ?? Infinity);
  const peak = lines.reduce((most, line, k) => (line.storedJ > lines[most]!.storedJ ? k : most), 0);
  const empty = lines.findLastIndex((line, k) => k < peak && line.storedJ === 0);
  const terms = lines.slice(empty + 1, peak + 1).map((line): Term => {
    const words = `${stretchName(plan, line.stretch)}: ${watts(line.heatW)} less ${watts(cooling)} for ${line.seconds} s`;
    return [words, ((line.heatW - cooling) * line.seconds) / 1000];
  });
  const [need] = heat.figures;
  return {
    ...(need ? { need } : {}),
    have: sumOf(
      "heat stored at its most",
      "kJ",
      terms,
      "heatstore: all heat over what the cooling carries off",
    ),
    ...(heat.sums ? { sums: heat.sums } : {}),
  };
}

/** Drinking water for the time outside, against what the suit holds. */
export function drinkingBehind({ plan, verdict, finding }: FindingOfDay): Behind {
  const outing = outingOf(verdict, finding);
  const eva = plan.evas.find(({ id }) => id === outing?.eva);
  const suit = outing && eva ? suitOn(plan, eva, outing.crew) : null;
  if (!outing || !suit) return {};
  const { kgH, source } = plan.rules.drinking;
  const outS = outing.span.endS - outing.span.startS;
  return {
    need: madeOf(
      "drunk",
      (outS / 3600) * kgH,
      "kg",
      "outS / 3600 * kgH",
      { outS: ["s outside", outS], kgH: ["kg an hour", kgH] },
      source,
    ),
    have: given("drinking water held", suit.drinkKg ?? 0, "kg", `suit ${suit.name}`),
    more: [
      timeBetween(
        "time outside",
        ["egress", outing.span.startS],
        ["ingress complete", outing.span.endS],
        "judge: S3",
      ),
    ],
  };
}

/** The walk-back at the worst moment, against emergency oxygen. */
export function emergencyBehind(day: FindingOfDay): Behind {
  const { plan, finding } = day;
  const eva = plan.evas.find(({ id }) => id === subject(finding, "eva"));
  const suit = eva ? suitOn(plan, eva, subject(finding, "crew")) : null;
  if (!suit) return {};
  const { emergencyReserveS, source } = plan.rules.walkback;
  const need = walkbackOf(day);
  const have = madeOf(
    "emergency oxygen less what is kept",
    suit.emergencyOxygenS - emergencyReserveS,
    "s",
    "emergencyS - keptS",
    {
      emergencyS: [`s, suit ${suit.name}`, suit.emergencyOxygenS],
      keptS: ["s kept, flight rules", emergencyReserveS],
    },
    source,
  );
  return { ...(need ? { need } : {}), have };
}

/** The walk-back at the worst moment, against what the consumable that bounds it carries. */
export function stocksBehind(day: FindingOfDay): Behind {
  const { plan, schedule, finding } = day;
  const eva = subject(finding, "eva");
  const crew = subject(finding, "crew");
  const ledger = ledgerOf(plan, schedule, eva, crew);
  const need = walkbackOf(day);
  if (!ledger || finding.have === null || !finding.span) return need ? { need } : {};
  const atS = finding.span.startS;
  // Every consumable at the moment; the one that bounds is that by which the judge says so.
  const home = homeOf(plan.site, waysOf(plan.site, gaitsOf(plan).planned), gaitsOf(plan).back);
  const slopes = new Set([0, ...home.placeSlopeRad, ...home.peakSlopeRad]);
  const carries = [...slopes].flatMap((slopeRad) =>
    CONSUMABLES.flatMap((consumable) => {
      const rate = ledger.walkback(slopeRad)[consumable];
      return [ledger.reserve[consumable], 0].flatMap((kept) =>
        leftAt(ledger, atS, consumable).map((left) => {
          const seconds = rate > 0 ? Math.floor((left - kept) / rate) : left >= kept ? Infinity : -1;
          return { consumable, left, kept, rate, seconds };
        }),
      );
    }),
  );
  const bound = carries.find(({ seconds }) => seconds === finding.have);
  if (!bound) return need ? { need } : {};
  const { per, unit } = UNITS[bound.consumable];
  const fine = bound.consumable === "battery" ? "mWs" : "µg";
  const have = madeOf(
    "walk-back that is carried",
    bound.seconds,
    "s",
    bound.rate > 0 ? "Math.floor((left - kept) / draw)" : "left < kept ? -1 : Infinity",
    {
      left: [`${fine} left then, ${bound.left / per} ${unit}`, bound.left],
      kept: [bound.kept > 0 ? `${fine} of reserve` : `${fine}: that it runs out at all`, bound.kept],
      ...(bound.rate > 0 ? { draw: [`${fine}/s walking back, rounded up`, bound.rate] as Term } : {}),
    },
    "reach: be able to walk back on what is left, published in prose",
  );
  const left = fromLeft(plan, schedule, eva, crew, bound.consumable, atS);
  return {
    ...(need ? { need } : {}),
    have,
    more: left?.figures.slice(0, 1) ?? [],
    ...(left?.sums ? { sums: left.sums } : {}),
  };
}

/** Whole units left at the breaks of the ledger at a moment: before and after a step that takes no time there are two. */
function leftAt(
  { atEgress, lines }: NonNullable<ReturnType<typeof ledgerOf>>,
  atS: number,
  consumable: Consumable,
): readonly number[] {
  const found: number[] = [];
  let before = atEgress[consumable];
  for (const line of lines) {
    if (line.drawnFromS === atS) found.push(before);
    before = line.left[consumable];
    if (line.drawnToS === atS) found.push(before);
  }
  return found;
}

/** The walk-back that a finding needs: from a place, hop by hop; or the worst of a way, from where both ends are equally far. */
function walkbackOf({ plan, verdict, finding }: FindingOfDay): Explained | null {
  const { need, span } = finding;
  const outing = outingOf(verdict, finding);
  if (need === null || !span || !outing) return null;
  const { planned, back } = gaitsOf(plan);
  const ways = waysOf(plan.site, planned);
  const home = homeOf(plan.site, ways, back);
  const quick = home.back;
  const source = "terrain/home: the way home at the walk-back speed, slower on slopes, every hop rounded up";
  const name = (place: number): string => plan.site.places[place]?.name ?? "";
  const visited = outing.stretches.flatMap(({ path }) => path.map((id) => ways.index.get(id) ?? ways.lander));
  const place = visited.find((one) => home.placeS[one] === need);
  if (place !== undefined) {
    const path = stops(quick, place, quick.lander);
    const hops = path.slice(1).map((to, k): Term => {
      const cell = path[k]! * quick.size + to;
      return [`${name(path[k]!)} to ${name(to)}, ${quick.distanceM[cell]!} m`, quick.durationS[cell]!];
    });
    return sumOf(`walk-back from ${name(place)}`, "s", hops, source);
  }
  for (const { path } of outing.stretches) {
    for (let k = 1; k < path.length; k += 1) {
      const [from, to] = [ways.index.get(path[k - 1]!) ?? 0, ways.index.get(path[k]!) ?? 0];
      const ends = [home.placeS[from]!, home.placeS[to]!] as const;
      if (home.peakS[from * ways.size + to] !== need) continue;
      return sumOf(
        `walk-back, worst between ${name(from)} and ${name(to)}`,
        "s",
        [
          [`from ${name(from)}`, ends[0]],
          [
            `back to it from the worst point of the way; from the other end it is ${ends[1]} s`,
            need - ends[0],
          ],
        ],
        source,
      );
    }
  }
  const inside = outing.stretches.find(
    (one) => one.kind === "task" && one.span.startS <= span.startS && span.startS <= one.span.endS,
  );
  const from = ways.index.get(inside?.path[0] ?? "") ?? ways.lander;
  return sumOf(
    "walk-back, worst inside of a task",
    "s",
    [
      [`from ${name(from)}`, home.placeS[from]!],
      ["as far as the walk inside of the task may lead from there", need - home.placeS[from]!],
    ],
    source,
  );
}

function outingOf(verdict: FindingOfDay["verdict"], finding: FindingOfDay["finding"]) {
  return verdict.outings.find(
    (one) => one.eva === subject(finding, "eva") && one.crew === subject(finding, "crew"),
  );
}

/** Who and where, for a caption. */
export function whose({ plan, finding }: FindingOfDay): string {
  return `${nameIn(plan.crew, subject(finding, "crew"))}, ${nameIn(plan.evas, subject(finding, "eva"))}`;
}

import type { RuleSpare, Subject } from "../answers/index.ts";
import { CONSUMABLES, drinkingS } from "../physics/index.ts";
import type { RuleId } from "../rules/index.ts";
import { about } from "./finding.ts";
import { marginShare } from "./margins.ts";
import { clearancesIn } from "./rules/blastKeepOut.ts";
import { loadsCarried } from "./rules/carry.ts";
import { farthest } from "./rules/crewSeparation.ts";
import { turnsOf } from "./rules/recharge.ts";
import { RESERVE_RULE } from "./rules/reserves.ts";
import { returnGrams } from "./rules/returnMass.ts";
import { spareOf } from "./rules/walkBackConsumables.ts";
import { longestWalkBack } from "./rules/walkBackEmergency.ts";
import { longestOf } from "./rules/workAndRest.ts";
import { DISTANCE_TOLERANCE_M } from "./thresholds.ts";
import type { CrewOuting } from "./crewouting.ts";
import type { Walkthrough } from "./walkthrough.ts";

/** One thing that a rule tests, with what it leaves to spare; null where that is not known. */
interface Tested {
  readonly spare: number | null;
  readonly subjects: readonly Subject[];
}

/**
 * What every flight rule with a number of its own leaves to spare at its worst: the same amounts that its findings are made of. Where
 * one of the things that a rule tests is not known, its least is not known either.
 */
export function sparesOf(walkthrough: Walkthrough): RuleSpare[] {
  return [
    ...suitSpares(walkthrough),
    ...walkbackSpares(walkthrough),
    ...distanceSpares(walkthrough),
    ...loadSpares(walkthrough),
    blastSpare(walkthrough),
    ...timeSpares(walkthrough),
  ];
}

function suitSpares({ prepared, outs }: Walkthrough): RuleSpare[] {
  const { rules } = prepared.plan;
  return [
    ...CONSUMABLES.map((consumable) =>
      leastOf(
        RESERVE_RULE[consumable],
        "share",
        eachCrewOuting(outs, (crewOuting) => marginShare(crewOuting, consumable)),
      ),
    ),
    leastOf(
      "heat-storage",
      "kJ",
      eachCrewOuting(outs, ({ walker, storedJ }) =>
        walker.coolingW === Infinity ? undefined : (walker.storageJ - Math.max(...storedJ)) / 1000,
      ),
    ),
    leastOf(
      "drinking-water",
      "s",
      eachCrewOuting(outs, ({ walker: { suit }, outing: { span } }) =>
        suit.drinkKg === undefined
          ? null
          : drinkingS(suit.drinkKg, rules.drinking.kgH) - (span.endS - span.startS),
      ),
    ),
  ];
}

function walkbackSpares({ outs }: Walkthrough): RuleSpare[] {
  return [
    leastOf(
      "walk-back-emergency",
      "s",
      eachCrewOuting(outs, (crewOuting) =>
        known(crewOuting, crewOuting.walker.emergencyS - (longestWalkBack(crewOuting)?.homeS ?? 0)),
      ),
    ),
    leastOf(
      "walk-back-consumables",
      "s",
      eachCrewOuting(outs, (crewOuting) => known(crewOuting, spareOf(crewOuting))),
    ),
  ];
}

function distanceSpares({ prepared, outs, crewOutingsOf, separation }: Walkthrough): RuleSpare[] {
  const { rules } = prepared.plan;
  return [
    leastOf(
      "eva-distance",
      "m",
      eachCrewOuting(outs, (crewOuting) => rules.distance.evaM - crewOuting.walkedM),
    ),
    leastOf(
      "stay-distance",
      "m",
      eachStay(
        crewOutingsOf,
        (own) => rules.distance.stayM - own.reduce((sum, crewOuting) => sum + crewOuting.walkedM, 0),
      ),
    ),
    leastOf(
      "crew-separation",
      "m",
      separation.flatMap((track) => {
        const worst = farthest(track);
        const subjects = [...track.crew.map((id) => about("crew", id)), about("eva", track.eva)];
        return worst ? [{ spare: straight(rules.separation.greatestM - worst.value), subjects }] : [];
      }),
    ),
  ];
}

function loadSpares(walkthrough: Walkthrough): RuleSpare[] {
  return [
    leastOf(
      "carry",
      "kg",
      loadsCarried(walkthrough).map(({ task, mostKg }) => ({
        spare: mostKg - task.massOutKg,
        subjects: [about("task", task.id)],
      })),
    ),
    leastOf("return-mass", "kg", returned(walkthrough)),
  ];
}

function blastSpare(walkthrough: Walkthrough): RuleSpare {
  const { leastM } = walkthrough.prepared.plan.rules.blast;
  return leastOf(
    "blast-keep-out",
    "m",
    clearancesIn(walkthrough)
      .filter(({ isOff }) => !isOff)
      .map(({ one, end, have }) => ({
        spare: straight(have - leastM),
        subjects: [about("task", one.task.id), about("place", end.id)],
      })),
  );
}

function timeSpares(walkthrough: Walkthrough): RuleSpare[] {
  const { prepared, outs, crewOutingsOf } = walkthrough;
  const { rules } = prepared.plan;
  return [
    leastOf(
      "work-and-rest",
      "s",
      eachCrewOuting(outs, (crewOuting) => {
        const worst = longestOf(prepared, crewOuting);
        return worst ? rules.work.longestS - (worst.endS - worst.startS) : undefined;
      }),
    ),
    leastOf(
      "duty",
      "s",
      eachStay(
        crewOutingsOf,
        (own) =>
          rules.duty.stayS - own.reduce((sum, { outing: { span } }) => sum + (span.endS - span.startS), 0),
      ),
    ),
    leastOf(
      "recharge",
      "s",
      turnsOf(walkthrough).map(({ whose: subject, gapS }) => ({
        spare: gapS - rules.recharge.leastS,
        subjects: [subject],
      })),
    ),
  ];
}

/** What each outing leaves to spare: null where that is not known, undefined where the rule does not test it. */
function eachCrewOuting(
  outs: Walkthrough["outs"],
  spare: (crewOuting: CrewOuting) => number | null | undefined,
): Tested[] {
  return outs.flatMap((out) =>
    out.crewOutings.flatMap((crewOuting) => {
      const is = spare(crewOuting);
      return is === undefined ? [] : [{ spare: is, subjects: whose(crewOuting) }];
    }),
  );
}

/** What is left to spare over all outings of each crew member. */
function eachStay(
  crewOutingsOf: Walkthrough["crewOutingsOf"],
  spare: (own: readonly CrewOuting[]) => number,
): Tested[] {
  return [...crewOutingsOf].flatMap(([crew, own]) =>
    own.length === 0 ? [] : [{ spare: spare(own), subjects: [about("crew", crew)] }],
  );
}

function leastOf(rule: RuleId, unit: RuleSpare["unit"], tested: readonly Tested[]): RuleSpare {
  let least = Infinity;
  let subjects: readonly Subject[] = [];
  for (const one of tested) {
    if (one.spare === null) return { rule, unit, spare: "unknown", subjects: one.subjects };
    if (one.spare < least) [least, subjects] = [one.spare, one.subjects];
  }
  return { rule, unit, spare: least === Infinity ? "untested" : least, subjects };
}

function whose({ outing: { crew, eva } }: CrewOuting): readonly Subject[] {
  return [about("crew", crew), about("eva", eva)];
}

/** What is to spare on a walk-back, unknown where there is a place without a way home. */
function known({ steps }: CrewOuting, spareS: number | undefined): number | null | undefined {
  return steps.some(({ homeFromS, homeToS }) => homeFromS < 0 || homeToS < 0) ? null : spareS;
}

/** A straight distance to spare: what the rule forgives is no shortfall. */
function straight(spareM: number): number {
  return spareM < 0 && spareM >= -DISTANCE_TOLERANCE_M ? 0 : spareM;
}

function returned(walkthrough: Walkthrough): readonly Tested[] {
  const { boxes, grams, most } = returnGrams(walkthrough);
  if (boxes.length === 0) return [];
  return [
    { spare: (most - grams) / 1000, subjects: boxes.map((box) => about("container", box.container.id)) },
  ];
}

import type {
  ExplainRequest,
  HeatTrack,
  MarginTrack,
  SeparationTrack,
  Verdict,
} from "../../answers/index.ts";
import { type Course, returnMassCourse } from "../../editor/index.ts";
import {
  type CrewMember,
  isEmergencyGiven,
  isReturnLeast,
  type Plan,
  type Schedule,
  suitOn,
  suitsOf,
  tasksOn,
} from "../../plan/index.ts";
import type { RuleId } from "../../rules/index.ts";
import { crewName, evaName, heat, lasting, leastWords, mass, metres, percent } from "../../words/index.ts";
import { spareCourse } from "../day/line/names/spare.ts";
import { CONSUMABLE_WORDS, consumableWords, isWorstAssumed } from "../words.ts";

/** How a margin stands; tight is what the plan's own rules call so. */
type MarginStatus = "breach" | "tight" | "fine" | "none";

interface RowBase {
  readonly key: string;
  readonly label: string;
  /** Whose it is; the group's name stands once above its rows. */
  readonly group: string;
  /** The worst of it in few words, and what that is of. */
  readonly figure: string;
  readonly of: string;
  readonly status: MarginStatus;
  /** It rests on what nobody has given of a suit. */
  readonly assumed?: boolean;
  /** What the figure is asked by, from what it comes; none where there is nothing to work out. */
  readonly request?: ExplainRequest;
  /** The same for each EVA apart, worst first; none where it is not told by EVA. */
  readonly parts?: readonly MarginPart[];
}

/** The worst of a margin on one EVA, and what bounds it. */
export interface MarginPart {
  readonly eva: string;
  readonly name: string;
  readonly figure: string;
  readonly cause: string;
  readonly request: ExplainRequest;
  readonly status: MarginStatus;
  /** It rests on what nobody has given of a suit. */
  readonly assumed: boolean;
}

/** Where a row stands among the others, pixels. */
export interface RowPlace {
  readonly row: MarginRow;
  readonly top: number;
  readonly heightPx: number;
}

/** The group of rows that are of no one suit. */
export const ALL = "All";

export type MarginRow =
  /** The four consumables of a suit in one shape: what is left above the reserve, whichever is least. */
  | (RowBase & { readonly kind: "least"; readonly outings: readonly (readonly MarginTrack[])[] })
  | (RowBase & { readonly kind: "stock"; readonly tracks: readonly MarginTrack[] })
  | (RowBase & { readonly kind: "spare"; readonly tracks: readonly Course[]; readonly topS: number })
  | (RowBase & {
      readonly kind: "apart";
      readonly tracks: readonly SeparationTrack[];
      readonly limit: number;
    })
  /** What may not grow beyond a limit: return mass, stored heat, what was drunk. */
  | (RowBase & {
      readonly kind: "load";
      readonly tracks: readonly Course[];
      readonly limit: number;
      readonly unit: "kg" | "kJ";
    });

/** The order in which consumables stand in every suit. */
const CONSUMABLES = ["oxygen", "co2", "water", "battery"] as const;

/** All rows of the margins; or for each suit one row with its four consumables, and how far apart the crew is. */
export function marginRows(
  plan: Plan,
  schedule: Schedule,
  verdict: Verdict,
  which: "all" | "least",
): readonly MarginRow[] {
  const perSuit = plan.crew.flatMap((member): readonly MarginRow[] => {
    // The walk home has its spare on the lane.
    if (which === "least") return [leastRow(plan, verdict, member.id)];
    const stocks = CONSUMABLES.map((consumable) => stockRow(plan, verdict, member.id, consumable));
    const more = [heatRow(plan, verdict, member), drinkRow(plan, verdict, member)];
    return [...stocks, spareRow(plan, verdict, member.id), ...more.flatMap((row) => row ?? [])];
  });
  const apart = apartRow(plan, verdict);
  return which === "least" ? [...perSuit, apart] : [...perSuit, apart, massRow(plan, schedule, verdict)];
}

function leastRow(plan: Plan, verdict: Verdict, crew: string): MarginRow {
  const tracks = verdict.margins.filter((one) => one.crew === crew);
  const worst = tracks.reduce<MarginTrack | null>(
    (a, b) => (a === null || b.margin < a.margin ? b : a),
    null,
  );
  const evas = [...new Set(tracks.map((track) => track.eva))];
  return {
    kind: "least",
    key: `${crew} least`,
    label: worst ? CONSUMABLE_WORDS[worst.consumable] : "",
    group: crewName(plan, crew),
    outings: evas.map((eva) => tracks.filter((track) => track.eva === eva)),
    figure: worst ? percent(worst.margin, "down") : "not out",
    of: worst ? `${CONSUMABLE_WORDS[worst.consumable]}, ${evaName(plan, worst.eva)}` : "",
    ...standOf(plan, worst, tracks),
    parts: partsOf(plan, tracks),
  };
}

/** The worst track of each EVA, worst first. */
function partsOf(plan: Plan, tracks: readonly MarginTrack[]): readonly MarginPart[] {
  const worst = new Map<string, MarginTrack>();
  const own = (eva: string): MarginTrack[] => tracks.filter((track) => track.eva === eva);
  for (const track of tracks) {
    const known = worst.get(track.eva);
    if (!known || track.margin < known.margin) worst.set(track.eva, track);
  }
  return [...worst.values()]
    .toSorted((a, b) => a.margin - b.margin)
    .map((track) => ({
      eva: track.eva,
      name: evaName(plan, track.eva),
      figure: percent(track.margin, "down"),
      cause: consumableWords(track.consumable),
      request: leftRequest(track),
      ...standOf(plan, track, own(track.eva)),
    }));
}

function stockRow(
  plan: Plan,
  verdict: Verdict,
  crew: string,
  consumable: MarginTrack["consumable"],
): MarginRow {
  const tracks = verdict.margins.filter((one) => one.crew === crew && one.consumable === consumable);
  const worst = tracks.reduce<MarginTrack | null>(
    (a, b) => (a === null || b.margin < a.margin ? b : a),
    null,
  );
  return {
    kind: "stock",
    key: `${crew} ${consumable}`,
    label: CONSUMABLE_WORDS[consumable],
    group: crewName(plan, crew),
    tracks,
    figure: worst ? percent(worst.margin, "down") : "not out",
    of: worst ? `above reserve, ${evaName(plan, worst.eva)}` : "",
    ...(worst ? { request: leftRequest(worst) } : {}),
    ...standOf(plan, worst, tracks),
    parts: partsOf(plan, tracks),
  };
}

/** How the worst of some margins stands; where one of them rests on what nobody has given, nothing is known to be enough. */
function standOf(plan: Plan, worst: MarginTrack | null, tracks: readonly MarginTrack[]) {
  const assumed = isWorstAssumed(plan, { margins: tracks });
  const status = worst ? stand(worst.margin, plan.rules.reserve.tight) : "none";
  return { assumed, status: assumed && status !== "breach" ? ("none" as const) : status };
}

/** How the margin at ingress is asked from what it comes. */
function leftRequest({ eva, crew, consumable }: MarginTrack): ExplainRequest {
  return { what: "left", eva, crew, consumable, atS: null };
}

/** Stored heat, where the suit's cooling has a limit. */
function heatRow(plan: Plan, verdict: Verdict, member: CrewMember): MarginRow | null {
  if (suitsOf(plan, member.id).every((suit) => suit.coolingW === undefined)) return null;
  const tracks = verdict.heat.filter((one) => one.crew === member.id);
  const peak = (track: HeatTrack): number => Math.max(...track.points.map((point) => point.value));
  const worst = tracks.toSorted((a, b) => peak(b) - peak(a))[0];
  const limit = plan.rules.heat.mostKjKg * member.bodyMassKg;
  return {
    kind: "load",
    key: `${member.id} heat`,
    label: `Stored heat, of ${heat(limit, "down")}`,
    group: member.name,
    tracks,
    limit,
    unit: "kJ",
    figure: worst ? loadText(peak(worst), "kJ") : "not out",
    of: worst ? `at the most, ${evaName(plan, worst.eva)}` : "",
    status: worst ? standOver(verdict, member.id, "heat-storage") : "none",
    ...(worst ? { request: { what: "heat", eva: worst.eva, crew: member.id } } : {}),
  };
}

/** Drinking water, against what the suit of the outing that is worst off holds; not known where that suit does not say. */
function drinkRow(plan: Plan, verdict: Verdict, member: CrewMember): MarginRow | null {
  const outings = verdict.outings.filter((one) => one.crew === member.id);
  const { kgH } = plan.rules.drinking;
  const drunk = outings.map(({ eva, span }) => {
    const outing = plan.evas.find((one) => one.id === eva);
    const suit = outing ? suitOn(plan, outing, member.id) : null;
    return { kg: ((span.endS - span.startS) / 3600) * kgH, drinkKg: suit?.drinkKg };
  });
  const spare = (one: (typeof drunk)[number]): number => (one.drinkKg ?? -Infinity) - one.kg;
  const worst = drunk.toSorted((a, b) => spare(a) - spare(b) || b.kg - a.kg)[0];
  const drinkKg = worst ? worst.drinkKg : suitsOf(plan, member.id)[0]?.drinkKg;
  const known = drinkKg !== undefined;
  return {
    kind: "load",
    key: `${member.id} drink`,
    label: known ? `Drunk, of ${mass(drinkKg, "given")}` : "Drunk, stock not known",
    group: member.name,
    tracks: outings.map(({ span }) => ({
      points: [
        { atS: span.startS, value: 0 },
        { atS: span.endS, value: ((span.endS - span.startS) / 3600) * kgH },
      ],
    })),
    limit: drinkKg ?? Infinity,
    unit: "kg",
    figure: outings.length === 0 ? "not out" : loadText(worst?.kg ?? 0, "kg"),
    of: known ? `of ${mass(drinkKg, "given")}` : "stock not known",
    status: outings.length === 0 || !known ? "none" : standOver(verdict, member.id, "drinking-water"),
    request: { what: "rule", rule: "drinking-water" },
  };
}

/** How the judge finds that `crew` stands to a rule. */
function standOver(verdict: Verdict, crew: string, rule: RuleId): MarginStatus {
  const own = verdict.findings.filter(
    (finding) => finding.rule === rule && finding.subjects.some(({ id }) => id === crew),
  );
  if (own.some((finding) => finding.level === "breach")) return "breach";
  return own.length > 0 ? "tight" : "fine";
}

/** Walk-back to spare: the longest walk home allowed less the one needed, wherever either changes. */
function spareRow(plan: Plan, verdict: Verdict, crew: string): MarginRow {
  const reach = verdict.reach.filter((one) => one.crew === crew);
  const tracks = reach.map(spareCourse);
  const leasts = tracks.map((track) => Math.min(...track.points.map((point) => point.value)));
  const least = Math.min(Infinity, ...leasts);
  const eva = reach[leasts.indexOf(least)]?.eva;
  const assumed = reach.some((one) => !isEmergencyGiven(plan, one));
  const lasts = suitsOf(plan, crew).map((suit) => suit.emergencyOxygenS);
  return {
    kind: "spare",
    key: `${crew} spare`,
    label: "Walk-back, to spare",
    group: crewName(plan, crew),
    tracks,
    topS: lasts.length > 0 ? Math.max(...lasts) - plan.rules.walkback.emergencyReserveS : 1800,
    figure: least === Infinity ? "not out" : lasting(least, "down"),
    of: least === Infinity ? "" : "at the least",
    ...(eva === undefined ? {} : { request: { what: "walkback", eva, crew, atS: null } }),
    status: least === Infinity || (assumed && least >= 0) ? "none" : stand(least, plan.rules.tightS),
    assumed,
  };
}

function apartRow(plan: Plan, verdict: Verdict): MarginRow {
  const limit = plan.rules.separation.greatestM;
  const most = Math.max(
    -1,
    ...verdict.separation.flatMap((track) => track.points.map((point) => point.value)),
  );
  return {
    kind: "apart",
    key: "apart",
    label: `Apart, of ${metres(limit, "down")}`,
    group: ALL,
    tracks: verdict.separation,
    limit,
    // Who is out alone is apart from nobody.
    figure: most >= 0 ? metres(most, "up") : verdict.outings.length > 0 ? "alone" : "–",
    of: `of ${metres(limit, "down")}`,
    request: { what: "rule", rule: "crew-separation" },
    status: most < 0 ? "none" : most > limit ? "breach" : "fine",
  };
}

function massRow(plan: Plan, schedule: Schedule, verdict: Verdict): MarginRow {
  const limit = plan.rules.returnMass.greatestKg;
  const isLeast = isReturnLeast(plan, tasksOn(plan, schedule));
  const enough = isLeast ? "none" : "fine";
  return {
    kind: "load",
    key: "mass",
    label: `Return, of ${mass(limit, "given")}`,
    group: ALL,
    tracks: [returnMassCourse(plan, schedule)],
    limit,
    unit: "kg",
    figure: leastWords(loadText(verdict.returnKg, "kg"), isLeast),
    of: `of ${mass(limit, "given")}${isLeast ? ", left not known" : ""}`,
    request: { what: "rule", rule: "return-mass" },
    status: verdict.returnKg > limit ? "breach" : enough,
  };
}

/** A load, rounded up: what is held against a limit is never shown smaller than it is. */
export function loadText(value: number, unit: "kg" | "kJ"): string {
  return unit === "kJ" ? heat(value, "up") : mass(value, "up");
}

function stand(margin: number, tight: number): MarginStatus {
  return margin < 0 ? "breach" : margin < tight ? "tight" : "fine";
}

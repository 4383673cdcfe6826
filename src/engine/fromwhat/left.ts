import type { FromAnswer, Stretch } from "../../answers/index.ts";
import { type Ledger, type LedgerLine, ledgerOf } from "../../check/index.ts";
import type { Explained } from "../../kernel/index.ts";
import {
  type Consumable,
  electricalW,
  explainDraw,
  explainSurroundings,
  explainWalk,
  levelW,
  suitIn,
} from "../../physics/index.ts";
import { type Eva, type Plan, ruleSource, type Schedule, type Suit } from "../../plan/index.ts";
import { gaitsOf, heavensOf, environmentHeatOnEvaW, waysOf } from "../../terrain/index.ts";
import { bare, clockToSecond, CONSUMABLE_WORDS, watts } from "../../words/index.ts";
import { stretchName, UNITS } from "./words.ts";

/**
 * From what the amount comes that `crew` has left of `consumable` on `eva` at `atS` (null: ingress complete): the stock, less the
 * purge, less what every stretch so far has drawn. Null where they are not out.
 */
export function fromLeft(
  plan: Plan,
  schedule: Schedule,
  eva: string,
  crew: string,
  consumable: Consumable,
  atS: number | null,
): FromAnswer | null {
  const ledger = ledgerOf(plan, schedule, eva, crew);
  const outing = plan.evas.find((one) => one.id === eva);
  if (!ledger || !outing) return null;
  const lines = ledger.lines.flatMap((line): Drawn[] => {
    const seconds = Math.min(line.seconds, (atS ?? Infinity) - line.stretch.span.startS);
    return seconds > 0 ? [{ line, seconds, drawn: line.rate[consumable] * seconds }] : [];
  });
  const purge = consumable === "oxygen" ? ledger.purge : 0;
  const figures = leftFigures(plan, ledger, consumable, purge, lines);
  const heaviest = lines.reduce<LedgerLine | null>(
    (most, { line }) => (!most || line.rate[consumable] > most.rate[consumable] ? line : most),
    null,
  );
  if (heaviest) figures.push(...drawsOf(plan, crew, ledger.suit, outing, heaviest, consumable));
  return { figures, sums: drawnTable(plan, consumable, purge, lines) };
}

/** What one stretch has drawn so far. */
interface Drawn {
  readonly line: LedgerLine;
  readonly seconds: number;
  readonly drawn: number;
}

/** What is left of the stock, and how far that is above the reserve. */
function leftFigures(
  plan: Plan,
  ledger: Ledger,
  consumable: Consumable,
  purge: number,
  lines: readonly Drawn[],
): Explained[] {
  const { per, unit } = UNITS[consumable];
  const drawn = lines.reduce((sum, one) => sum + one.drawn, 0);
  const full = ledger.full[consumable];
  const kept = ledger.reserve[consumable];
  const left = full - purge - drawn;
  const called = CONSUMABLE_WORDS[consumable];
  const share = ledger.suit.reserve[consumable];
  return [
    {
      of: `${called} left`,
      value: left / per,
      unit,
      formula: purge > 0 ? "stock - purge - drawn" : "stock - drawn",
      inputs: [
        { name: "stock", value: full / per, unit },
        ...(purge > 0 ? [{ name: "purge", value: purge / per, unit }] : []),
        { name: "drawn", value: drawn / per, unit },
      ],
      source: "suit: stock of the plan; drawn as below, stretch by stretch",
    },
    {
      of: "margin above the reserve",
      value: full > 0 ? ((left - kept) / full) * 100 : 0,
      unit: "% of the stock",
      formula: full > 0 ? "(left - reserve) / stock * 100" : "0",
      inputs: [
        { name: "left", value: left / per, unit },
        {
          name: "reserve",
          value: kept / per,
          unit: `${unit}: ${bare(share * 100, 6)} % of the stock, rounded up`,
        },
        { name: "stock", value: full / per, unit },
      ],
      source: `reserve: ${ruleSource(plan, "reserve")}`,
    },
  ];
}

function drawnTable(
  plan: Plan,
  consumable: Consumable,
  purge: number,
  lines: readonly Drawn[],
): FromAnswer["sums"] {
  const { per, unit, rateUnit } = UNITS[consumable];
  return {
    caption: `Drawn, by stretch, ${unit}`,
    head: ["Stretch", "from MET", "h:mm:ss", "work, W", `draw, ${rateUnit}`, `drawn, ${unit}`],
    rows: [
      ...(purge > 0 ? [["Purge before egress", "", "", "", "", bare(purge / per, 6)]] : []),
      ...lines.map(({ line, seconds, drawn: much }) => [
        stretchName(plan, line.stretch),
        clockToSecond(line.stretch.span.startS),
        clockToSecond(seconds),
        bare(line.stretch.metabolicW, 6),
        bare(line.rate[consumable], 6),
        bare(much / per, 6),
      ]),
    ],
  };
}

/** The draw of one stretch, worked out from the suit's numbers; with the heat behind it where that is water. */
function drawsOf(
  plan: Plan,
  crew: string,
  suit: Suit,
  eva: Eva,
  { stretch, mode }: LedgerLine,
  consumable: Consumable,
): Explained[] {
  const environmentHeatW = environmentHeatOnEvaW(heavensOf(plan), suit, eva);
  const worn = suitIn(suit, mode, environmentHeatW);
  const [oxygen, co2, heat, water, battery] = explainDraw(worn, stretch.metabolicW);
  const own = { oxygen, co2, water, battery }[consumable]!;
  const where = ` at the heaviest: ${stretchName(plan, stretch)}`;
  const figures = [
    { ...own, of: `${own.of}${where}` },
    ...(consumable === "battery" ? [] : walkOf(plan, crew, suit, stretch)),
  ];
  if (consumable !== "water") return figures;
  const sun = heavensOf(plan).sunRange({ startS: eva.earliestEgressS, endS: eva.latestIngressS });
  return [
    ...figures,
    heat!,
    ...(suit.heatFrom === "sun" ? [explainSurroundings(suit.insulationM2, sun)] : []),
  ];
}

/** From what the rate of a way comes; nothing for other stretches. */
function walkOf(plan: Plan, crew: string, suit: Suit, { kind, metabolicW, path }: Stretch): Explained[] {
  const member = plan.crew.find((one) => one.id === crew);
  if (kind !== "traverse" || !member) return [];
  const { walking } = plan.rules;
  const { gravityMs2 } = plan.body;
  const who = { factor: member.workRateFactor, massKg: member.bodyMassKg + suit.massKg };
  const ways = waysOf(plan.site, gaitsOf(plan).planned);
  const [from, to] = [path[0]!, path.at(-1)!].map((id) => ways.index.get(id)!);
  const paceMs = ways.paceMs[from! * ways.size + to!]!;
  const slopeW = metabolicW - levelW(walking, who, gravityMs2, paceMs);
  return [explainWalk(walking, who, gravityMs2, paceMs, slopeW)];
}

/** The heat that `crew` stores on `eva`, stretch by stretch. */
export function fromHeat(plan: Plan, schedule: Schedule, eva: string, crew: string): FromAnswer | null {
  const ledger = ledgerOf(plan, schedule, eva, crew);
  const member = plan.crew.find((one) => one.id === crew);
  if (!ledger || !member) return null;
  const { mostKjKg, source } = plan.rules.heat;
  return {
    figures: [
      {
        of: "heat that may be stored",
        value: mostKjKg * member.bodyMassKg,
        unit: "kJ",
        formula: "perKg * bodyKg",
        inputs: [
          { name: "perKg", value: mostKjKg, unit: "kJ/kg" },
          { name: "bodyKg", value: member.bodyMassKg, unit: "kg" },
        ],
        source: `heatstore: ${source}`,
      },
    ],
    sums: {
      caption:
        ledger.suit.coolingW === undefined
          ? "Cooling is always enough: no limit is given for it, so nothing is stored"
          : `Heat by stretch, against cooling of ${watts(ledger.suit.coolingW)}`,
      head: ["Stretch", "from MET", "h:mm:ss", "load, W", "heat, W", "stored at its end, kJ"],
      rows: ledger.lines.map((line) => [
        stretchName(plan, line.stretch),
        clockToSecond(line.stretch.span.startS),
        clockToSecond(line.seconds),
        bare(electricalW(ledger.suit, line.mode), 6),
        bare(line.heatW, 6),
        bare(Math.ceil(line.storedJ / 100) / 10, 6),
      ]),
    },
  };
}

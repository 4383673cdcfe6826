import type { Bands, Chance, FromAnswer, MarginOdds, OddsReport } from "../answers/index.ts";
import type { Explained } from "../kernel/index.ts";
import { counted, crewSays } from "../words/index.ts";

/**
 * From what figures of simulated days come, out of what their report carries: counts, the sampling interval, the place of a
 * percentile among the days. Worked out here apart from the maker, so that the one can be held against the other.
 */

/** How the days of a report were made. */
type Made = Pick<OddsReport, "days" | "seed" | "shape" | "withoutSpread" | "leftOut" | "crew" | "unplayed">;

type Band = 0 | 1 | 2 | 3 | 4;

/** The percentiles of Bands. */
const PARTS: Bands = [5, 25, 50, 75, 95];
/** Two-sided 95 % of the normal distribution. */
const Z = 1.959963984540054;
const WILSON =
  "interval of Wilson 1927, J Am Stat Assoc 22:209-212, which in the long run holds the true chance in 95 of 100 cases";

/** From what the chance of `of` comes. */
export function fromChance(report: Made, of: string, chance: Chance): FromAnswer {
  const { count, of: days, low, high } = chance;
  if (days === 0) return { says: noDays(report), figures: [], sums: null };
  const happened = input("happened", count, "days");
  const all = input("days", days, "simulated");
  const end = (word: string, sign: "-" | "+", value: number): Explained => ({
    of: `${word} end of the interval`,
    value: value * 100,
    unit: "%",
    formula: `(happened + z * z / 2 ${sign} z * Math.sqrt(happened * (days - happened) / days + z * z / 4)) / (days + z * z) * 100`,
    inputs: [happened, all, input("z", Z, "standard errors for 95 of 100")],
    source: WILSON,
  });
  return {
    says: `${extreme(chance)}${played(report)}`,
    figures: [
      {
        of,
        value: (count / days) * 100,
        unit: "%",
        formula: "happened / days * 100",
        inputs: [happened, all],
        source:
          "counted on the simulated days; on screen rounded to the worse side, and the interval outwards",
      },
      end("lower", "-", low),
      end("upper", "+", high),
    ],
    sums: null,
  };
}

/** From what comes how much of a consumable is left above its reserve at the limit of the EVA, at a percentile. */
export function fromMargin(report: OddsReport, margin: MarginOdds, band: Band): FromAnswer {
  const { stock, reserve, consumable, points } = margin;
  const left = points.at(-1)!.left[band];
  const unit = consumable === "battery" ? "Wh" : "kg";
  return {
    says: played(report),
    figures: [
      {
        of: "left above the reserve",
        value: stock > 0 ? ((left - reserve) / stock) * 100 : 0,
        unit: "% of the stock",
        formula: stock > 0 ? "(left - reserve) / stock * 100" : "0",
        inputs: [
          input("left", left, `${unit}, on the day at the place below`),
          input("reserve", reserve, unit),
          input("stock", stock, unit),
        ],
        source:
          "stock and reserve: suit of the plan; drawn as on the planned day, over drawn times at drawn work rates",
      },
      place(report.days, band, "down", "the least left first"),
    ],
    sums: null,
  };
}

/** From what the time comes by which so many days have reached ingress. */
export function fromTime(report: Made, band: Band): FromAnswer {
  return {
    says: played(report),
    figures: [place(report.days, band, "up", "the earliest first")],
    sums: null,
  };
}

/** Where a percentile stands when the days are put in order. It is always a day that was simulated, never one in between. */
function place(days: number, band: Band, rounding: "up" | "down", order: string): Explained {
  const part = PARTS[band];
  const [round, words] = rounding === "up" ? [Math.ceil, "ceil"] : [Math.floor, "floor"];
  return {
    of: `place of the ${part} % among the days, ${order}`,
    value: round(((days - 1) * part) / 100) + 1,
    unit: `of ${days}`,
    formula: `Math.${words}((days - 1) * part / 100) + 1`,
    inputs: [input("days", days, "simulated"), input("part", part, "%")],
    source: "percentile as a value that came up; between two days the worse one",
  };
}

/** What is said instead of a count that no number of days can bear. */
function extreme({ count, of }: Chance): string {
  if (count === of) return "It happened on every day, so only the lower end of the interval is said. ";
  if (count === 0) return "It happened on no day, so only the upper end of the interval is said. ";
  return "";
}

/** Why nothing was counted. */
function noDays({ unplayed }: Made): string {
  if (unplayed.length === 0) return "No day was simulated.";
  return `No day was simulated: none can play ${counted(unplayed.length, "task")} as placed, against rules that no delay mends.`;
}

/** How the days were made, and what they leave out. */
function played({ days, seed, shape, withoutSpread, leftOut, crew }: Made): string {
  const spread = shape === "pert" ? "PERT" : "triangular";
  const fixed = withoutSpread.length;
  const always =
    fixed === 0
      ? ""
      : ` ${fixed} placed ${fixed === 1 ? "task has" : "tasks have"} no low and high and ${fixed === 1 ? "takes its" : "take their"} likely time but for rare events.`;
  return (
    `${days} simulated ${days === 1 ? "day" : "days"}, durations drawn ${spread} between low and high, seed ${seed}: the same again gives the ` +
    `same figures.${always} ${crewSays(crew)} ${leftOut}`
  );
}

function input(name: string, value: number, unit: string): Explained["inputs"][number] {
  return { name, value, unit };
}

import { z } from "zod";
import { USUAL } from "./defaults.ts";
import { note, ranged, share, spanS } from "./fields.ts";

/** Whether breaking a rule is a breach or only a warning, and where its numbers come from. */
const standing = (source: string) => ({
  level: z
    .enum(["breach", "warning"])
    .default("breach")
    .describe("What breaking it counts as; a stock that runs out is a breach all the same."),
  source: note.default(source).describe("Where the default comes from."),
});

/** The flight rules' numbers. RULES.md numbers the sentences; each entry here is one or more of them. */
export const rulesSchema = z.strictObject({
  walking: z
    .strictObject({
      speedMs: ranged(0.05, 5, "Planned walking speed on the level, m/s.").default(
        USUAL["rules.walking.speedMs"].starts,
      ),
      metabolicW: ranged(
        50,
        1500,
        "Metabolic rate of level walking at the speed that it belongs to, W.",
      ).default(USUAL["rules.walking.metabolicW"].starts),
      rateAtMs: ranged(
        0.05,
        2,
        "Speed that the metabolic rate belongs to, m/s; faster walking is reckoned with more.",
      ).default(USUAL["rules.walking.rateAtMs"].starts),
      detour: ranged(1, 3, "Way walked over straight line.").default(1.1),
      greatestSlopeDeg: ranged(0, 45, "Steepest way, degrees.").default(20),
      greatestDownDeg: ranged(
        0,
        45,
        "On a height grid: steepest way down, degrees; without it as up.",
      ).optional(),
      greatestAcrossDeg: ranged(
        0,
        45,
        "On a height grid: steepest ground walked across, degrees; without it as up.",
      ).optional(),
      ...standing(
        "Speed: low end of suited walks timed in 1/6 g, 3.3 to 5.5 km/h. Rate: measured mean on foot, riding left out, NASA SP-368 (1975) sec. II ch. 4, rows from memory; the speed that it belongs to: project assumption.",
      ),
    })
    .prefault({})
    .describe("Walking on planned ways."),
  reserve: z
    .strictObject({
      tight: share("A margin above the reserve smaller than this share of the stock is tight.").default(0.03),
      ...standing("Reserves are set for each suit. Project default."),
    })
    .prefault({})
    .describe("Reserves of consumables at ingress."),
  walkback: z
    .strictObject({
      speedMs: ranged(0.05, 5, "Walking speed on the way back, m/s.").default(
        USUAL["rules.walkback.speedMs"].starts,
      ),
      metabolicW: ranged(
        50,
        1500,
        "Metabolic rate on the way back, W; never reckoned with less than walking at that speed asks.",
      ).default(USUAL["rules.walkback.metabolicW"].starts),
      emergencyReserveS: spanS.prefault(180).describe("Emergency oxygen that must be left at the lander, s."),
      ...standing(
        "Speed: as planned, no faster. Rate: mean of egress and ingress, NASA SP-368 (1975) sec. II ch. 4, value from memory. Reserve: project default.",
      ),
    })
    .prefault({})
    .describe("The way back, at every moment outside."),
  separation: z
    .strictObject({
      greatestM: ranged(0, 100_000, "Crew members of one EVA never farther apart, m.").default(500),
      ...standing("Common practice, no source."),
    })
    .prefault({})
    .describe("How far apart the crew may be."),
  distance: z
    .strictObject({
      evaM: ranged(0, 1e6, "Walked by one crew member in one EVA, m.").default(8000),
      stayM: ranged(0, 1e6, "Walked by one crew member in the stay, m.").default(16_000),
      ...standing("Project default."),
    })
    .prefault({})
    .describe("How far one crew member may walk."),
  blast: z
    .strictObject({
      leastM: ranged(0, 10_000, "Instruments at least so far from the lander, m.").default(91.44),
      ...standing("300 ft (91.44 m). Common practice, no source."),
    })
    .prefault({})
    .describe("Instruments clear of the ascent blast."),
  work: z
    .strictObject({
      longestS: spanS.prefault(9000).describe("Longest stretch of work and walking without a rest, s."),
      restS: spanS.prefault(600).describe("A pause of at least this counts as rest, s."),
      ...standing("Project default."),
    })
    .prefault({})
    .describe("Continuous work and rest."),
  duty: z
    .strictObject({
      stayS: spanS.prefault(86_400).describe("EVA time of one crew member in the stay, s."),
      ...standing("At most 24 h EVA in 7 days: Stromgren et al. 2015, IEEE Aerospace, as quoted."),
    })
    .prefault({})
    .describe("EVA time in the stay."),
  recharge: z
    .strictObject({
      leastS: spanS.prefault(18_000).describe("From ingress to the same crew member's next egress, s."),
      ...standing("After-EVA work 3 h and preparation 2 h: planning assumption, value from memory."),
    })
    .prefault({})
    .describe("Time between EVAs."),
  heat: z
    .strictObject({
      mostKjKg: ranged(
        0,
        50,
        "Heat stored in the body where cooling is not enough, kJ per kg of body.",
      ).default(3),
      ...standing("Heat storage limit of NASA-STD-3001 vol. 2, value from memory."),
    })
    .prefault({})
    .describe("Heat stored in the body."),
  drinking: z
    .strictObject({
      kgH: ranged(0, 5, "Drinking water for each hour outside, kg.").default(0.24),
      ...standing("0.24 kg per EVA hour: NASA-STD-3001 vol. 2, value from memory."),
    })
    .prefault({})
    .describe("Drinking water."),
  carry: z
    .strictObject({
      greatestN: ranged(0, 10_000, "Weight that one crew member carries by hand, N.").default(
        USUAL["rules.carry.greatestN"].starts,
      ),
      ...standing(
        "50 kg on the Moon, twice the reference mass of ISO 11228-1 (value from memory): project choice. 420 Earth-pounds, 308 N there, were carried by one person (published).",
      ),
    })
    .prefault({})
    .describe("What the crew may carry."),
  returnMass: z
    .strictObject({
      greatestKg: ranged(0, 10_000, "Samples and their containers together, kg.").default(80),
      ...standing("The ascent vehicle's limit. Project default."),
    })
    .prefault({})
    .describe("What the ascent may lift."),
  tightS: spanS.prefault(300).describe("A time margin smaller than this is tight, s."),
  startGridS: z
    .int("must be whole seconds")
    .min(1, "must be at least a second")
    .max(3600, "must be at most an hour")
    .default(60)
    .describe(
      "Starts that the packer chooses are whole multiples of this, seconds from touchdown; what is pinned or set by hand is not.",
    ),
});

export type Rules = z.infer<typeof rulesSchema>;
export type RuleLevel = Rules["reserve"]["level"];

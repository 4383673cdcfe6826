import type { FlightRule } from "./record.ts";

/** Flight rules on what a task asks for. */
export const taskRules = {
  container: {
    words: "Sample container",
    sentence: "Mass and volume of samples in each container.",
    decides: null,
    eases: { by: "choice", most: 1 },
    causes: ["container"],
    numbers: null,
    amounts: { kg: "most", L: "most" },
  },
  equipment: {
    words: "Shared equipment",
    sentence:
      "At no moment is more of an equipment in use than there is; of one that is missing there are 0.",
    decides: null,
    eases: { by: "unit", most: 3 },
    causes: ["equipment"],
    numbers: null,
    amounts: { count: "least" },
  },
  "time-window": {
    words: "Time window",
    sentence: "A task with windows lies inside one of them; a task without crew lies inside the stay.",
    decides: null,
    eases: { by: "min", most: 240 },
    causes: ["window"],
    numbers: null,
    amounts: { s: "least" },
  },
  "egress-window": {
    words: "Time from egress",
    sentence: "A task with a window from egress (PET) lies inside it, counted from the egress of its EVA.",
    decides: null,
    eases: { by: "min", most: 240 },
    causes: ["pet"],
    numbers: null,
    amounts: { s: "least" },
  },
  sun: {
    words: "Sun elevation",
    sentence:
      "From start to end the sun elevation is inside the task's range; unknown where the body has no ephemeris or nobody has given latitude, longitude or touchdown, and unknown is a breach.",
    decides: null,
    eases: { by: "0.1 degree", most: 100 },
    causes: ["sun"],
    numbers: null,
    amounts: { s: "least" },
  },
  light: {
    words: "Light on the ground",
    sentence:
      "From start to end the ground at the task's place and end place is in the sun, or in shadow, as it asks: the sun's centre above or below the horizon that the ground gives there. Where heights are not known neither is, but for shadow while the sun is below -acos((R - 9.2 km) / (R + 10.8 km)), the lowest horizon that the Moon's relief allows, -8.7 degrees; unknown is a breach.",
    decides: null,
    eases: { by: "choice", most: 1 },
    causes: ["light"],
    numbers: null,
    amounts: { s: "least" },
  },
  "sun-angle": {
    words: "Sun and heading",
    sentence:
      "From start to end the angle between where the task faces and the sun's azimuth is inside its range; it faces `facingDeg`, else from place to end place; unknown is a breach.",
    decides: null,
    eases: { by: "choice", most: 1 },
    causes: ["sun-angle"],
    numbers: null,
    amounts: { s: "least" },
  },
  relay: {
    words: "Relay pass",
    sentence:
      "A relay task lies inside one relay pass or, with an Earth link, inside one stretch in which the Earth stands over the horizon of its place and end place. Where heights are not known the Earth is not said to be in view: unknown, and a breach outside the relay passes.",
    decides: "the relay's operators",
    eases: { by: "min", most: 60 },
    causes: ["relay"],
    numbers: null,
    amounts: { s: "least" },
  },
} as const satisfies Readonly<Record<string, FlightRule>>;

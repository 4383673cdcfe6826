import type { PlanInput } from "../../../src/plan/plan.ts";
import { planOf, smallInput } from "../../session/bench.ts";

/** A plan that uses every field that setup shows. */
const input: PlanInput = {
  ...smallInput,
  notes: "Two lines\nof notes.",
  site: {
    ...smallInput.site,
    notes: "Flat.",
    legs: [
      { from: "lander", to: "ridge", distanceM: 120, durationS: 150, bothWays: false, walkbackPeakM: 130 },
    ],
    places: [
      ...smallInput.site.places,
      { id: "hub", name: "Hub", kind: "deployment", eastM: -200, northM: 40.5, upM: -2 },
    ],
    keepOuts: [
      {
        id: "heat",
        name: "Heat",
        kind: "hot",
        shape: { type: "disc", eastM: 10, northM: 10, radiusM: 3 },
        afterTask: "one",
        exemptTasks: ["two"],
      },
      {
        id: "boulders",
        name: "Boulders",
        kind: "walking",
        shape: {
          type: "polygon",
          points: [
            { eastM: 300, northM: 0 },
            { eastM: 320, northM: 0 },
            { eastM: 310, northM: -20.5 },
          ],
        },
      },
    ],
  },
  stay: {
    ...smallInput.stay,
    blocks: [
      { id: "nap", name: "Nap", kind: "sleep", crew: ["ev2"], startS: 40_000, endS: 50_000 },
      { id: "meal", name: "Meal", kind: "meal", startS: 50_000, endS: 52_000 },
    ],
    relayPasses: [{ id: "pass", name: "Pass", startS: 0, endS: 9000 }],
  },
  rules: {
    ...smallInput.rules,
    walking: { ...smallInput.rules?.walking, greatestDownDeg: 15, greatestAcrossDeg: 12 },
  },
  crew: smallInput.crew.map((member) => ({ ...member, qualifications: ["drilling", "geology"] })),
  equipment: [
    {
      id: "drill",
      name: "Core drill",
      count: 1,
      massKg: 6,
      returns: true,
      mishap: { what: "jams", chance: 0.025, extraS: 630 },
    },
    { id: "rake", name: "Rake", count: 3 },
  ],
  revision: { name: "Rev 2", note: "Moved." },
  procedures: {
    egress: [{ text: "Check the seals." }],
    ingress: [{ text: "Brush off the dust." }],
    emergency: [{ text: "Call." }, { when: "oxygen falls fast", text: "Go home at once." }],
    authority: "Nobody yet",
  },
  containers: [{ id: "box", name: "Box", emptyMassKg: 1, capacityKg: 10, volumeL: 5 }],
  tasks: [
    {
      ...smallInput.tasks[0]!,
      endPlace: "hub",
      walkM: 120,
      duration: { lowS: 600, likelyS: 900, highS: 1234 },
      crew: { count: 2, named: ["ev1"], qualification: "drilling" },
      effort: { watts: 350 },
      must: true,
      windows: [
        { startS: 3600, endS: 9000 },
        { startS: 10_000, endS: 12_345 },
      ],
      sun: { leastDeg: -2, greatestDeg: 15 },
      light: "lit",
      sunAngle: { leastDeg: 90, greatestDeg: 180, facingDeg: 45 },
      relay: true,
      equipment: [{ equipment: "drill" }, { equipment: "rake", count: 2 }],
      massOutKg: 4.5,
      returns: true,
      sample: { container: "box", massKg: 1.25, volumeL: 0.5, bags: 3 },
      instrument: true,
      mishap: {
        what: "breaks; for good",
        chance: 0.01,
        extraS: 300,
        spoils: true,
        remedy: {
          name: "Mend it",
          after: "two",
          duration: { likelyS: 300, lowS: 240, highS: 600 },
          steps: [{ text: "Tape it." }],
        },
      },
      cautions: [{ class: "warning", text: "Keep clear." }, { text: "Mind it." }],
      steps: [
        { text: "Do it.", cautions: [{ class: "note", text: "It is cold." }] },
        { when: "it is red", text: "Look at it.", by: 2, blank: { of: "reading", unit: "°C" } },
      ],
      notes: "With care.",
      pin: { startS: 7200, eva: "eva-1", crew: ["ev1", "ev2"] },
    },
    { ...smallInput.tasks[1]!, kind: "deployment", instrument: false },
    smallInput.tasks[2]!,
  ],
  groups: [{ id: "group-1", name: "Both", tasks: ["one", "two"], least: 1, most: 2, shares: [100, 50] }],
  links: [
    {
      id: "l1",
      type: "lag",
      from: { task: "one", end: "end" },
      to: { task: "two", end: "start" },
      leastS: -60,
      greatestS: 600,
      needs: "both",
    },
    { id: "l2", type: "crew", tasks: ["one", "two"], crew: "different" },
    { id: "l3", type: "eva", tasks: ["two", "three"] },
    { id: "l4", type: "apart", tasks: ["one", "three"], leastM: 30 },
  ],
};

export const completePlan = planOf(input);

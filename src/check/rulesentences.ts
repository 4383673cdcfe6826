import type { RuleId } from "../rules/index.ts";

/** Every rule in the sentence that RULES.md has for it, for whoever asks on a screen; a test holds the two equal. */
export const RULE_SENTENCES: Readonly<Record<RuleId, string>> = {
  "oxygen-reserve": "At ingress complete every suit still holds its reserve of each consumable.",
  "co2-reserve": "At ingress complete every suit still holds its reserve of each consumable.",
  "water-reserve": "At ingress complete every suit still holds its reserve of each consumable.",
  "battery-reserve": "At ingress complete every suit still holds its reserve of each consumable.",
  "heat-storage":
    "At every moment outside, the heat stored in the body (`physics/storedAfterJ`: all heat over what the cooling carries off, none at egress, spare cooling takes it out again) is at most the limit times body mass.",
  "drinking-water":
    "From egress to ingress complete nobody drinks more than the suit holds, where that is known.",
  "walk-back-emergency":
    "At every moment outside, the walk-back time is at most the emergency oxygen time less its reserve.",
  "walk-back-consumables":
    "At every moment outside, each consumable less what the walk-back draws is at least its reserve. Tested at both ends of every stretch, and for a way whose worst walk-back lies between its ends, that worst against what is left at its end.",
  "walking-physics":
    "Where anybody goes out, the planned and the walk-back speed on the level are at most 7.0 km/h, the fastest timed in a suit in 1/6 g; faster is a breach, never a warning. Above 5.5 km/h, the usual most, or a walk-back faster than planned, is tight. No leg that the planner gave is shorter than the straight line between its places, faster than that speed, or has a worst walk-back shorter than the straight line home from its farther end: walked on an outing that is a breach, walked by none it is tight. A task lasts at least the way from its place to its end place and what else is walked in it, at the planned speed: shorter is a breach; a short case that is shorter is tight.",
  "eva-distance":
    "Distance walked by one crew member in one EVA, in the stay: ways, and inside a task `walkM` or the way to its end place, whichever is longer.",
  "stay-distance":
    "Distance walked by one crew member in one EVA, in the stay: ways, and inside a task `walkM` or the way to its end place, whichever is longer.",
  "crew-separation": "Crew members of one EVA are never farther apart in a straight line.",
  carry:
    "What a task with crew carries out weighs at most the limit for each of the crew members it asks for.",
  "return-mass": "Samples and the empty mass of every container that holds one together.",
  container: "Mass and volume of samples in each container.",
  equipment: "At no moment is more of an equipment in use than there is; of one that is missing there are 0.",
  "time-window": "A task with windows lies inside one of them; a task without crew lies inside the stay.",
  sun: "From start to end the sun elevation is inside the task's range; unknown where the body has no ephemeris, and unknown is a breach.",
  light:
    "From start to end the ground at the task's place and end place is in the sun, or in shadow, as it asks: the sun's centre above or below the horizon that the ground gives there. Where heights are not known neither is, but for shadow while the sun is below -acos((R - 9.2 km) / (R + 10.8 km)), the lowest horizon that the Moon's relief allows, -8.7 degrees; unknown is a breach.",
  "sun-angle":
    "From start to end the angle between where the task faces and the sun's azimuth is inside its range; it faces `facingDeg`, else from place to end place; unknown is a breach.",
  relay:
    "A relay task lies inside one relay pass or, with an Earth link, inside one stretch in which the Earth stands over the horizon of its place and end place. Where heights are not known the Earth is not said to be in view: unknown, and a breach outside the relay passes.",
  "link-lag": "Both placed: the lag between the named ends is at least `leastS` and at most `greatestS`.",
  "link-needs":
    "`from`: the second is placed only if the first is. `both`: neither is placed without the other.",
  "link-crew": "Both placed: the same crew members, or none in common.",
  "link-eva": "Both placed, both with crew: on the same EVA.",
  "link-apart": "Both placed: end places at least so far apart.",
  "task-crew":
    "As many crew members as asked, all of the EVA's crew, the named ones among them, one with the qualification; a task with crew names an EVA, one without names none.",
  "one-at-a-time": "A crew member's tasks do not overlap, and there is time to walk from each to the next.",
  "no-way": "There is a way between all places a crew member goes through, and home.",
  "blast-keep-out":
    "An instrument's end place is at least so far from the lander. A deployment leaves one unless `instrument` is false; one that is switched off so and ends nearer is reported as tight, never as a breach.",
  "hot-keep-out":
    "Once the heat is there (`afterTask` placed and ended, or always without one) no task with a place or end place inside the shape is under way, but for `afterTask` itself and the exempt ones; and nobody, not even who has done one of those, stays inside it before leaving for the next.",
  "work-and-rest":
    "No stretch of work and walking (egress and ingress work included) is longer than the limit; only standing pauses (but for those before leaving) or `rest` effort of at least the rest time, one after the other taken together, end a stretch.",
  "eva-bounds": "Egress not before, ingress complete not after, not longer; ingress complete before liftoff.",
  "stay-blocks": "No EVA overlaps a sleep or meal block of its crew.",
  duty: "EVA time of one crew member in the stay.",
  "suit-worn-once":
    "Nobody wears a suit that somebody else wears: outings in one suit do not overlap, egress to ingress complete.",
  recharge:
    "From ingress complete to the next egress of the same crew member, and to the next one in the same suit.",
  "lander-stores":
    "What recharges before later EVAs in the same suit draw (oxygen, water, energy as consumed on the earlier EVA, one absorbent change each) is in the stores; of each suit the last EVA is not counted.",
  pin: "A placed task keeps its pinned start, EVA and crew. A pinned task may still be left on the bench.",
  "must-do": "Every must-do task is placed; one that is not is `open`, not a breach.",
};

import { Chain, fewness } from "./chain.ts";
import type { Course } from "./course.ts";
import type { Elite, Elites } from "./elites.ts";
import { CAUTIONS } from "./trial.ts";

/** Part of the chains that are not stretched, with many tasks and with few. */
const UNSTRETCHED = 0.25;
const UNSTRETCHED_FEW = 0.5;
/** Part of the chains whose crew is not as careful as that of what they begin with. */
const OTHER_CAUTION = 0.3;
/**
 * Part of the chains, with few tasks, for which what is missing of a chance is so many times dearer: from a day that does much and falls a
 * little short, the way to one that meets the wish may lead through days that do less.
 */
const STRICT = 0.5;
const DEARER = 8;
/** Chains begun from nothing: so many, over the number of tasks; and the greatest part of all. */
const ANEW = 3;
const MOST_ANEW = 0.4;
/** Chains that a part has room for; and iterations after which one that has found nothing sound is given up. */
const RESTARTS = 12;
const HOPELESS = 400;

/** Chains one after the other from the best so far, each at stretches of its own up to `most`, until this share of the run is done. */
export function* chains(course: Course, until: number, most: number): Generator<undefined, void> {
  let good: Float64Array | null = null;
  for (let turn = 0; course.share() < until; turn += 1) {
    const fromShare = course.share();
    // Restarts pay more than length: a few chains whatever the time.
    const lengthShare = Math.min(until - fromShare, Math.max(until / RESTARTS, 0.02));
    const elites = course.elites[turn % course.elites.length]!;
    const elite = picked(course, elites);
    const before = elites.bestValue;
    const stretches = mix(course, most, elite, good);
    const chain = chainFrom(course, elites, elite, stretches);
    yield;
    yield* followed(course, chain, fromShare, lengthShare);
    if (elites.bestValue > before) good = stretches;
    yield;
  }
}

/** A chain from one of the best, or now and then from nothing, at a price of its own. */
function chainFrom(course: Course, { wish }: Elites, elite: Elite | null, stretches: Float64Array): Chain {
  const { random: stream, trial, problem } = course;
  const anew = stream.next() < Math.min(MOST_ANEW, ANEW / problem.activities);
  const from = anew ? null : (elite?.schedule ?? course.from);
  const caution = cautionOf(course, elite);
  const price = wish.price * (stream.next() < STRICT * fewness(problem) ? DEARER : 1);
  return new Chain(problem, stretches, from, stream, trial, { ...wish, price }, course.note, caution);
}

/** Goes on with a chain for its part of the run, or until it is hopeless. */
function* followed(
  course: Course,
  chain: Chain,
  fromShare: number,
  lengthShare: number,
): Generator<undefined, void> {
  for (let k = 1; ; k += 1) {
    const done = (course.share() - fromShare) / lengthShare;
    if (done >= 1 || (k > HOPELESS && chain.best === -Infinity)) return;
    chain.iterate(done);
    course.tick(1);
    if (k % 4 === 0) yield;
  }
}

/** How careful a crew a chain from `elite` begins with: as there, or any other way. */
function cautionOf({ random: stream, crew }: Course, elite: Elite | null): number {
  if (crew.leavesOut && stream.next() < OTHER_CAUTION) return CAUTIONS[stream.below(CAUTIONS.length)]!;
  return elite?.sampled.caution ?? crew.caution;
}

/** One of the best, the better the likelier. */
function picked({ random: stream }: Course, { list }: Elites): Elite | null {
  if (list.length === 0) return null;
  return list[Math.min(list.length - 1, Math.floor(-Math.log(1 - stream.next()) * 2))]!;
}

/** Stretches of a chain: none, all alike, must-do work against the rest, a few tasks, before against after, or what gained last changed a little. */
function mix(
  { random: stream, problem }: Course,
  most: number,
  elite: Elite | null,
  good: Float64Array | null,
): Float64Array {
  // What a stretched problem has no room for is lost at the start of a chain.
  const unstretched = UNSTRETCHED + fewness(problem) * (UNSTRETCHED_FEW - UNSTRETCHED);
  if (stream.next() < unstretched) return new Float64Array(problem.activities);
  const level = most * stream.next() ** 1.5;
  const other = most * stream.next() ** 1.5;
  const part = 0.2 + 0.5 * stream.next();
  const splitS = stream.next() * problem.plan.stay.lengthS;
  const mode = stream.below(5);
  const startOf = new Map(elite?.schedule.placements.map((one) => [one.task, one.startS]));
  return Float64Array.from(problem.plan.tasks, ({ id, must }, a) => {
    if (mode === 0) return level;
    if (mode === 1) return must ? level : other;
    if (mode === 2) return stream.next() < part ? level : 0;
    if (mode === 3) return (startOf.get(id) ?? 0) < splitS ? level : other;
    if (!good) return level * 0.5;
    return Math.max(0, good[a]! + (stream.next() < 0.3 ? (stream.next() - 0.5) * most * 0.5 : 0));
  });
}

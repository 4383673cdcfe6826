import { random } from "../../kernel/index.ts";
import { floorOf } from "./floor.ts";
import { LEARNER, Learner } from "./learn/learner.ts";
import { Neighbourhood } from "./neighbourhood.ts";
import { spanOf } from "./network.ts";
import { Population } from "./population.ts";
import { finishOf, type Project } from "./problem.ts";

/**
 * Ways to go on, and which share of the effort each gets once the first schedules stand: by how many activities there
 * are, since learning proves what is small and breeding gets furthest with what is large; and by how far the floor is
 * below the best schedule, since what is near to its proof is proved sooner than bettered. Where no resource can be
 * shared, orders of two are all there is to decide, and it is taken as small at any size.
 */
type Way = "breed" | "learn" | "loosen" | "lift";
type Shares = Readonly<Record<Way, number>>;
const SMALL = 45;
const LARGE = 100;
const SHARES = {
  small: { breed: 0.05, learn: 0.85, loosen: 0.05, lift: 0.05 },
  near: { breed: 0.05, learn: 0.8, loosen: 0.05, lift: 0.1 },
  middle: { breed: 0.45, learn: 0.22, loosen: 0.24, lift: 0.09 },
  large: { breed: 0.75, learn: 0.07, loosen: 0.12, lift: 0.06 },
} as const satisfies Record<string, Shares>;
/** Part of the best finish that a floor that is near is below it at most. */
const NEAR = 0.04;

/** Effort before shares count: schedules bred at the very start, and then effort of exact search. */
const FIRST_SCHEDULES = 500;
const FIRST_LEARNING = 400_000;
/** Effort spent on one way before another gets its turn, and in one iteration. */
const TURN = 100_000;
const ITERATION = 3_000;

/**
 * Several searches on one project, taking turns by effort, sharing the best schedule and the floor under the finish:
 * breeding (upper bounds early), learning (proof, and the optimum of what is small or tight), loosening
 * neighbourhoods of the best schedule (large projects), and lifting the floor from below. Effort is counted, not
 * timed, so the same seed and iterations give the same schedule.
 */
export class Portfolio {
  /** Starts of the best schedule; null while there is none. */
  best: Int32Array | null = null;
  finish = Infinity;
  /** No schedule finishes earlier; Infinity when there is none at all. */
  floor: number;
  readonly #project: Project;
  readonly #population: Population | null;
  readonly #learner: Learner | null;
  readonly #neighbourhood: Neighbourhood;
  readonly #spent: Record<Way, number> = { breed: 0, learn: 0, loosen: 0, lift: 0 };
  #way: Way = "breed";
  #turnEnds = 0;

  /** `from` is a schedule to beat, when it is a sound one. */
  constructor(project: Project, seed: number, from: Int32Array | null = null) {
    const stream = random(seed);
    this.#project = project;
    this.#neighbourhood = new Neighbourhood(project, stream.split());
    const span = fitsAtAll(project) ? spanOf(project) : null;
    this.floor = span ? floorOf(project, span) : Infinity;
    this.#population = span ? Population.of(project, stream.split()) : null;
    this.#learner = span ? Learner.of(project, finishOf(project, span.latest), LEARNER) : null;
    if (from) this.#take(from);
    this.#raise();
  }

  /** True when the best schedule is proved to be optimal, or when it is proved that there is none. */
  get proved(): boolean {
    return this.floor >= this.finish || this.floor === Infinity;
  }

  /** One small piece of work: a few milliseconds. */
  iterate(): void {
    if (this.proved) return;
    if (this.#spent[this.#way] >= this.#turnEnds) this.#turn();
    if (this.#way === "breed") this.#breed();
    else if (this.#way === "loosen") this.#loosen();
    else this.#learn(this.#way === "lift" ? this.floor : null);
  }

  /** Gives the turn to the way that is furthest behind its share. */
  #turn(): void {
    const spent = this.#spent;
    const shares = sharesFor(this.#project, this.finish - this.floor <= NEAR * this.finish);
    const ways: Way[] = ["learn"];
    if (this.best) ways.push("lift", "loosen");
    if (this.#population) ways.push("breed");
    if (this.#population && this.#population.schedules < FIRST_SCHEDULES) this.#way = "breed";
    else if (spent.learn < FIRST_LEARNING) this.#way = "learn";
    else this.#way = ways.reduce((a, b) => (spent[b] / shares[b] < spent[a] / shares[a] ? b : a));
    this.#turnEnds = spent[this.#way] + TURN;
  }

  #breed(): void {
    const population = this.#population!;
    const until = population.schedules + ITERATION / this.#project.activities;
    while (population.schedules < until) {
      population.step();
      this.#spent.breed += 1 * this.#project.activities;
    }
    const { best } = population;
    if (best && best.late === 0) this.#take(best.start);
  }

  #learn(assume: number | null): void {
    const learner = this.#learner!;
    const before = learner.work;
    const answer = learner.search(assume, Infinity, ITERATION);
    this.#spent[assume === null ? "learn" : "lift"] += learner.work - before;
    if (answer === "found") this.#take(learner.start);
    this.#raise();
  }

  #loosen(): void {
    const before = this.#neighbourhood.work;
    const better = this.#neighbourhood.improve(this.best!, ITERATION);
    this.#spent.loosen += this.#neighbourhood.work - before;
    if (better) this.#take(better);
  }

  #take(start: Int32Array): void {
    const finish = finishOf(this.#project, start);
    if (finish >= this.finish) return;
    this.finish = finish;
    this.best = start.slice();
    if (this.#population && this.#population.schedules > 0) this.#population.welcome(this.best);
    this.#learner?.limit(finish - 1);
    this.#learner?.follow(this.best);
  }

  /** Without a schedule below the best one, the best one is the floor. */
  #raise(): void {
    this.floor = Math.max(this.floor, Math.min(this.#learner?.lowerBound ?? Infinity, this.finish));
  }
}

function sharesFor({ activities, capacity }: Project, isNear: boolean): Shares {
  if (activities <= SMALL || capacity.every((count) => count === 1)) return SHARES.small;
  if (isNear) return SHARES.near;
  return activities < LARGE ? SHARES.middle : SHARES.large;
}

/** False when some activity asks for more than there is. */
function fitsAtAll({ activities, resources, capacity, demand }: Project): boolean {
  for (let a = 0; a < activities; a += 1) {
    for (let r = 0; r < resources; r += 1) if (demand[a * resources + r]! > capacity[r]!) return false;
  }
  return true;
}

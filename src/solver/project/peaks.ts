import { finishOf, type Project } from "./problem.ts";

/** The peak of a moment that lies in none. */
export const OUTSIDE = -1;

/**
 * How busy the resources are over the time of a schedule, and where they are busiest. A resource counts by how scarce
 * it is: by the time that all the work on it takes at full use.
 */
export class Peaks {
  readonly #project: Project;
  /** By activity: what it adds to the load while it runs. */
  readonly #weight: Float64Array;
  #load = new Float64Array(1);
  #peak = new Int32Array(1);

  constructor(project: Project) {
    const { activities, resources, capacity, demand, length } = project;
    this.#project = project;
    this.#weight = new Float64Array(activities);
    for (let r = 0; r < resources; r += 1) {
      let work = 0;
      for (let a = 0; a < activities; a += 1) work += length[a]! * demand[a * resources + r]!;
      for (let a = 0; a < activities; a += 1) {
        this.#weight[a]! += (work / capacity[r]!) * (demand[a * resources + r]! / capacity[r]!);
      }
    }
  }

  /** Reads `start`: the peaks are the stretches of time whose load is at least `share` of the highest load. */
  read(start: Int32Array, share: number): void {
    const { length } = this.#project;
    const finish = finishOf(this.#project, start);
    if (this.#load.length <= finish) {
      this.#load = new Float64Array(2 * finish + 1);
      this.#peak = new Int32Array(2 * finish + 1);
    }
    const load = this.#load.fill(0, 0, finish + 1);
    for (let a = 0; a < start.length; a += 1) {
      load[start[a]!]! += this.#weight[a]!;
      load[start[a]! + length[a]!]! -= this.#weight[a]!;
    }
    let most = 0;
    for (let t = 1; t <= finish; t += 1) {
      load[t]! += load[t - 1]!;
      most = Math.max(most, load[t - 1]!);
    }
    let peak = 0;
    for (let t = 0; t <= finish; t += 1) {
      const isPeak = load[t]! >= share * most;
      if (!isPeak) peak += 1;
      this.#peak[t] = isPeak ? peak : OUTSIDE;
    }
  }

  /** The number of the peak at `instant` of the schedule read last, rising with time; OUTSIDE where there is none. */
  peakAt(instant: number): number {
    return this.#peak[instant]!;
  }
}

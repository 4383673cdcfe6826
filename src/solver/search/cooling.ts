import type { SearchParameters } from "./parameters.ts";

/** Heat of a cooling that keeps, over the root of its part of the turns that it should have. */
const KEEPING = 2;

/** How far the cooling in hand is, by the share of the run that is done: one after the other, as many as the run's length allows. */
export class Cooling {
  private readonly parameters: SearchParameters;
  private readonly activities: number;
  private turns = 0;
  /** Whether a cooling in too few turns for its activities begins colder, for a search that begins with a day worth keeping. */
  keeps = false;
  /** The cooling in hand, in shares of the run; the first one is measured once the run's length can be told. */
  private heatedAt = 0;
  private coldAt = 1;
  private isLengthKnown = false;
  /** How far on the coolings begin. */
  private begunAt = 0;

  constructor(parameters: SearchParameters, activities: number) {
    this.parameters = parameters;
    this.activities = activities;
  }

  /** To be asked once a turn: 0 where a cooling begins, to 1 where it ends. */
  at(share: number): number {
    this.turns += 1;
    const { cooling, few } = this.parameters;
    const isKnownNow = !this.isLengthKnown && share >= this.parameters.lengthKnown;
    if (isKnownNow || (this.isLengthKnown && share >= this.coldAt && share < 1)) {
      this.isLengthKnown = true;
      if (!isKnownNow) this.heatedAt = share;
      const left = (1 - this.heatedAt) * (this.turns / share);
      const times = Math.max(1, Math.round(left / (cooling * Math.max(few, this.activities))));
      this.coldAt = this.heatedAt + (1 - this.heatedAt) / times;
      if (this.keeps) this.begunAt = this.farOn(left / times);
    }
    const gone = Math.min(1, (share - this.heatedAt) / (this.coldAt - this.heatedAt));
    return this.begunAt + (1 - this.begunAt) * gone;
  }

  /** How far on one in so many `turns` begins: its heat goes with the root of its part of the turns that it should have. */
  private farOn(turns: number): number {
    const { cooling, few, hot, cold } = this.parameters;
    const part = turns / (cooling * Math.max(few, this.activities));
    const heat = KEEPING * Math.sqrt(part);
    return heat >= 1 || cold === hot ? 0 : Math.min(1, Math.log(heat) / Math.log(cold / hot));
  }
}

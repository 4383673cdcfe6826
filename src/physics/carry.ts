/**
 * What one person in a suit may carry by hand.
 *
 * Measure: weight, at most what the plan says for each of them. Range: low gravity, level ground, a good grip, up to
 * the 309 N of 420 Earth-pounds of equipment that one person carried on the Moon (published). Not covered: mass that must be started and stopped, bulk, slopes: plan heavy or bulky loads for two.
 */
/** The greatest mass in kg that `people` carry under `gravityMs2` when each may carry `greatestN` of weight. */
export function carriedKg(greatestN: number, gravityMs2: number, people: number): number {
  return (greatestN / gravityMs2) * people;
}

/**
 * How fast people walk in pressure suits.
 *
 * Suited walks timed in 1/6 g: 3.3 to 5.5 km/h, the fastest 7.0 km/h (published; as quoted beside the checks).
 * Range: level ground, minutes. Not covered: other gravities, for which no suited walk was timed; soft ground; hours.
 */
/** Upper end of the usual speeds, m/s. */
export const USUAL_MOST_MS = 5.5 / 3.6;

/** The fastest that was timed, m/s. */
export const FASTEST_MS = 7 / 3.6;

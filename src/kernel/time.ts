/**
 * Time in a plan: whole seconds of mission elapsed time (MET), counted from touchdown.
 *
 * `Instant` is a point, `Duration` a length; both are branded whole numbers so that a point is not added to a
 * point by accident. Casts live here and in the plan's schemas only.
 */
declare const instantBrand: unique symbol;
declare const durationBrand: unique symbol;

/** A point in time: whole seconds from touchdown (may be negative). */
export type Instant = number & { readonly [instantBrand]: true };
/** A length of time in whole seconds (may be negative where a lag is). */
export type Duration = number & { readonly [durationBrand]: true };

/** Whole seconds from touchdown as an Instant. Throws RangeError when not a safe whole number. */
export function instant(seconds: number): Instant {
  return whole(seconds, "instant") as Instant;
}

/** Whole seconds as a Duration. Throws RangeError when not a safe whole number. */
export function duration(seconds: number): Duration {
  return whole(seconds, "duration") as Duration;
}

/** The point `by` after `at` (before it when `by` is negative). */
export function after(at: Instant, by: Duration): Instant {
  return (at + by) as Instant;
}

/** The length from `from` to `to`; negative when `to` is earlier. */
export function between(from: Instant, to: Instant): Duration {
  return (to - from) as Duration;
}

function whole(value: number, what: string): number {
  if (!Number.isSafeInteger(value)) {
    throw new RangeError(`${what} must be whole seconds, got ${value}; maybe round to the safe side first`);
  }
  return value;
}

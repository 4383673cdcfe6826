import type { Plan } from "../../plan/index.ts";

/** Numbers in the maker's sentences; margins are never rounded to the unsafe side. */

/** Seconds as `1:05` or `12 min`, rounded up or down to whole minutes. */
export function minutes(seconds: number, rounding: "up" | "down"): string {
  const whole = rounding === "up" ? Math.ceil(seconds / 60) : Math.floor(seconds / 60);
  if (Math.abs(whole) < 60) return `${whole} min`;
  const sign = whole < 0 ? "-" : "";
  const size = Math.abs(whole);
  return `${sign}${Math.floor(size / 60)}:${String(size % 60).padStart(2, "0")}`;
}

/** Metres, whole. */
export function metres(value: number, rounding: "up" | "down"): string {
  return `${rounding === "up" ? Math.ceil(value) : Math.floor(value)} m`;
}

/** A moment as MET hours and minutes, `5:07 MET`. */
export function met(seconds: number): string {
  const whole = Math.floor(seconds / 60);
  const sign = whole < 0 ? "-" : "";
  const size = Math.abs(whole);
  return `${sign}${Math.floor(size / 60)}:${String(size % 60).padStart(2, "0")} MET`;
}

/** `A`, `A and B`, `A, B and C`. */
export function named(names: readonly string[]): string {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1)!}`;
}

/** What is available to a tenth, rounded down. */
export function wholeTenths(value: number): string {
  return (Math.floor(value * 10) / 10).toFixed(1);
}

/** What is said where a plan walks faster than anybody was timed in a suit. */
export function paceWords({ rules }: Pick<Plan, "rules">): string {
  const { walking, walkback } = rules;
  return `Walking is planned at ${walking.speedMs} m/s and back at ${walkback.speedMs} m/s; the fastest timed in a suit is 7.0 km/h, 1.944 m/s.`;
}

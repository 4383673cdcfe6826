/**
 * Numbers as a flight planner reads them. What is available is rounded down and what is needed is rounded up, so
 * no sentence shows a margin better than it is.
 */
export type Rounding = "down" | "up";

/** A point in time as `h:mm MET`; seconds are added where there are any. */
export function met(atS: number): string {
  const size = Math.abs(atS);
  const hours = Math.floor(size / 3600);
  const minutes = Math.floor(size / 60) % 60;
  const seconds = size % 60;
  const tail = seconds === 0 ? "" : `:${two(seconds)}`;
  return `${atS < 0 ? "-" : ""}${hours}:${two(minutes)}${tail} MET`;
}

/** A length of time as `1:05`, `12 min` or `40 s`; below zero there is "no time". */
export function lasting(seconds: number, rounding: Rounding): string {
  if (seconds < 0) return "no time";
  if (seconds < 60) return seconds === 0 ? "0 min" : `${seconds} s`;
  const minutes = rounding === "down" ? Math.floor(seconds / 60) : Math.ceil(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  return `${Math.floor(minutes / 60)}:${two(minutes % 60)}`;
}

/** A distance as `850 m` or `1.24 km`. */
export function metres(distanceM: number, rounding: Rounding): string {
  if (Math.abs(distanceM) < 1000)
    return `${rounded(distanceM, Number.isInteger(distanceM) ? 0 : 1, rounding)} m`;
  return `${rounded(distanceM / 1000, 2, rounding)} km`;
}

/** A speed as `3.6 km/h`, with more figures where one would hide a difference. */
export function kmH(speedMs: number): string {
  const value = speedMs * 3.6;
  const fine = value.toFixed(3);
  return `${fine.endsWith("00") ? fine.slice(0, -2) : fine} km/h`;
}

/** A mass from grams as `12.3 kg`; whole grams need no rounding. */
export function kilograms(grams: number): string {
  return `${grams / 1000} kg`;
}

/** A volume from millilitres as `3.5 L`. */
export function litres(millilitres: number): string {
  return `${millilitres / 1000} L`;
}

/** An amount of a consumable, kg or Wh, to a gram or a tenth of a watt-hour. */
export function amount(value: number, unit: "kg" | "Wh", rounding: Rounding): string {
  return unit === "kg" ? `${rounded(value, 3, rounding)} kg` : `${rounded(value, 1, rounding)} Wh`;
}

/** `1 crew member`, `2 crew members`. */
export function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

function rounded(value: number, digits: number, rounding: Rounding): string {
  const scale = 10 ** digits;
  // A millionth of the last digit absorbs the noise of the scaling itself.
  const scaled = rounding === "down" ? Math.floor(value * scale + 1e-6) : Math.ceil(value * scale - 1e-6);
  return (scaled / scale).toFixed(digits);
}

function two(value: number): string {
  return String(value).padStart(2, "0");
}

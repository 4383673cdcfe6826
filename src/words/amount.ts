import { digits, fixed, rounded, type Side, signed, stepped } from "./number.ts";

/** Amounts with their units. The table of figures and sides stands in `number.ts`. */

/** A distance: `8.5 m`, `850 m`, `1.24 km`, `12.4 km`; as given `1.2345 km`. */
export function metres(value: number, side: Side): string {
  const size = Math.abs(value);
  if (side === "given") return size < 1000 ? `${digits(value)} m` : `${digits(value / 1000)} km`;
  // What is rounded up to the next unit or figure is said as that: 999.5 m is 1.00 km.
  const whole = Math.abs(stepped(value, 1, side));
  if (size < 100) return `${rounded(value, 1, side)} m`;
  if (whole < 1000) return `${fixed(value, 0, side)} m`;
  const tens = Math.abs(stepped(value, 10, side));
  return `${fixed(value / 1000, tens < 1000 ? 2 : whole < 100_000 ? 1 : 0, side)} km`;
}

/** By how much more or less is walked, whole metres: `+120 m`. */
export function metresMore(value: number): string {
  return `${signed(value)} m`;
}

/** A mass: `12.3 kg`; as given to the gram. */
export function mass(kg: number, side: Side): string {
  return `${rounded(kg, 1, side)} kg`;
}

/** A volume: `3.5 L`; as given to the millilitre. */
export function volume(litres: number, side: Side): string {
  return `${rounded(litres, 1, side)} L`;
}

/** What a suit or the lander holds of a consumable: `0.290 kg`, `9.9 Wh`. */
export function stock(value: number, unit: "kg" | "Wh", side: "up" | "down"): string {
  return `${fixed(value, unit === "kg" ? 3 : 1, side)} ${unit}`;
}

/** Heat in a body: `312 kJ`. */
export function heat(kilojoules: number, side: Side): string {
  return `${rounded(kilojoules, 0, side)} kJ`;
}

/** A power as it stands: `260 W`. */
export function watts(value: number): string {
  return `${digits(value)} W`;
}

/** A share of a stock or a chance: `6 %`; as given `97.5 %`. */
export function percent(share: number, side: Side): string {
  // Shares come from divisions: 0.07 is seven hundredths.
  const hundredths = Math.round(share * 1e9) / 1e7;
  return `${side === "given" ? digits(Number(hundredths.toFixed(2))) : rounded(hundredths, 0, side)} %`;
}

/** A speed as the plan has it: `0.9 m/s`. */
export function speed(ms: number): string {
  return `${digits(ms)} m/s`;
}

/** A speed as it is known from walks: `3.6 km/h`, with more figures where one would hide a difference. */
export function kmH(ms: number): string {
  const fine = (ms * 3.6).toFixed(3);
  return `${fine.endsWith("00") ? fine.slice(0, -2) : fine} km/h`;
}

/** An elevation or another angle with a sign: `5.2°`, `−0.8°`. */
export function angle(degrees: number, side: "up" | "down"): string {
  return `${fixed(degrees, 1, side)}°`;
}

/** A direction over the ground from north over east, in three figures: `045°`. */
export function bearing(degrees: number): string {
  return `${String(((Math.round(degrees) % 360) + 360) % 360).padStart(3, "0")}°`;
}

/** The size of a file: `812 bytes`, `14 kB`, `2.1 MB`; never less than it is. */
export function sizeWords(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  return bytes <= 999_000 ? `${fixed(bytes / 1000, 0, "up")} kB` : `${fixed(bytes / 1_000_000, 1, "up")} MB`;
}

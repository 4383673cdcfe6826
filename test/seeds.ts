import fc from "fast-check";

/**
 * The seed of every property that names none: the same in each run, so that what passed once passes again, unless
 * `SEED` gives another, or a new one with `SEED=fresh`.
 */
const asked = process.env["SEED"] ?? "1";
const seed = asked === "fresh" ? Date.now() % 2 ** 31 : Number(asked);
if (!Number.isInteger(seed)) throw new Error(`SEED is a whole number or "fresh", not "${asked}"`);
if (asked === "fresh") process.stdout.write(`SEED=${seed}\n`);
fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });

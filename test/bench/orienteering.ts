import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { judgeFor } from "../../src/check/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { greedy, packRun } from "../../src/solver/index.ts";
import { processorSeconds } from "./clock.ts";

/** Lists of known values: a line an instance, its name first. */
const LISTS = ["best-known.csv", "proven.csv"];

/** How a family of orienteering instances is packed, from the arguments of its command. */
export interface Asked {
  readonly seconds: number;
  readonly seed: number;
  readonly proveSeconds: number;
  /** Names of instances. */
  readonly only: RegExp;
  /** The value of an option that only one family has. */
  option(name: string): string | undefined;
}

/** A line of the folder's list: the instance's name, its file, and the columns behind the name. */
export interface Listed {
  readonly name: string;
  readonly file: string;
  readonly columns: readonly string[];
}

/** Reads `DIR --seconds S --seed N [--only GLOB] [--prove P]`, and what instances of DIR its list has a value for. */
export function askedOf(args: readonly string[]): {
  readonly asked: Asked;
  readonly listed: readonly Listed[];
} {
  const [folder] = args;
  if (folder === undefined) throw new Error("give the folder of the instances, the one with best-known.csv");
  const option = (name: string): string | undefined => {
    const at = args.indexOf(`--${name}`);
    return at < 0 ? undefined : args[at + 1];
  };
  const only = new RegExp(
    `^${(option("only") ?? "*").replace(/[.+^${}()|[\]\\]/g, "\\$&").replace(/\*/g, ".*")}$`,
  );
  const asked = {
    seconds: Number(option("seconds") ?? 1),
    seed: Number(option("seed") ?? 1),
    proveSeconds: Number(option("prove") ?? 0),
    only,
    option,
  };
  const list = readdirSync(folder).find((file) => LISTS.includes(file));
  if (list === undefined) throw new Error(`no ${LISTS.join(" or ")} in ${folder}`);
  const files = new Map(
    readdirSync(folder, { recursive: true, encoding: "utf8" })
      .filter((file) => file.endsWith(".txt"))
      .map((file) => [file.replace(/^.*\//, "").replace(/\.txt$/, ""), join(folder, file)]),
  );
  const listed = readFileSync(join(folder, list), "utf8")
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .flatMap((line): Listed[] => {
      const [name = "", ...columns] = line.split(",");
      const file = files.get(name);
      return file !== undefined && only.test(name) ? [{ name, file, columns }] : [];
    });
  return { asked, listed };
}

/** What a pack came to, judged. */
export interface PackedValue {
  readonly schedule: Schedule;
  readonly worth: number;
  readonly greedy: number;
  readonly iterations: number;
  readonly breaches: number;
  readonly bound: number | null;
  readonly stopped: string | null;
}

/** Packs a plan for the asked processor time and judges what came of it. Throws when its bound is below a day that holds. */
export async function packedValue(plan: Plan, { seed, seconds, proveSeconds }: Asked): Promise<PackedValue> {
  const packing = packRun(plan, { seed, seconds, proveSeconds, clock: processorSeconds });
  while (packing.step(0.016)) await Promise.resolve();
  const judge = judgeFor(plan);
  const schedule = packing.best();
  const { worth, breaches } = judge(schedule).score;
  const { bound, stopped, iterations } = packing.progress();
  if (bound !== null && bound < worth) throw new Error(`${plan.title}: bound ${bound} below ${worth}`);
  return { schedule, worth, breaches, iterations, bound, stopped, greedy: judge(greedy(plan)).score.worth };
}

/** How far `found` is under `known`, %; below 0 it is better. */
export function gapTo(known: number, found: number): number {
  return (100 * (known - found)) / known;
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, one) => sum + one, 0) / values.length;
}

export function greatest(values: readonly number[]): number {
  return values.reduce((most, one) => Math.max(most, one), -Infinity);
}

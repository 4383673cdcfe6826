import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Schedule } from "../../src/plan/index.ts";
import { askedOf } from "./orienteering.ts";
import { checkTours } from "./tourcheck.ts";

/** What a kept file says: the instance, its score, and by tour the vertices in order. */
interface Kept {
  readonly instance: string;
  readonly score: number;
  readonly tours: readonly (readonly number[])[];
}

/** Writes the tours of `schedule`, one a crew member of `crew`, to `folder` as NAME-m.json. */
export function keep(folder: string, name: string, crew: number, schedule: Schedule, score: number): void {
  const tours = Array.from({ length: crew }, (_, k) =>
    schedule.placements
      .filter((one) => one.crew.includes(`c${k + 1}`))
      .toSorted((a, b) => a.startS - b.startS)
      .map((one) => Number(one.task.slice(1))),
  );
  const kept: Kept = { instance: name, score, tours };
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, `${name}-${crew}.json`), `${JSON.stringify(kept)}\n`);
}

/**
 * `npm run bench -- kept DIR KEPT`: goes every tour that `bench -- toptw DIR --keep KEPT` wrote over its instance in DIR, by `tourcheck` alone, and
 * compares its score with the best known value. The exit code is 1 where one has a fault or another score than it says.
 */
export function run(args: string[]): Promise<void> {
  const folder = args[1];
  if (folder === undefined) throw new Error("give the folder of the instances and the one of the kept tours");
  const { listed } = askedOf(args);
  let faulty = 0;
  let better = 0;
  const files = readdirSync(folder).filter((file) => file.endsWith(".json"));
  for (const file of files) {
    const kept = JSON.parse(readFileSync(join(folder, file), "utf8")) as Kept;
    const known = listed.find(
      ({ name, columns }) => name === kept.instance && Number(columns[0]) === kept.tours.length,
    );
    if (!known) throw new Error(`${file}: no best known value`);
    const decimals = kept.instance.startsWith("pr") ? 2 : 1;
    const { score, faults } = checkTours(readFileSync(known.file, "latin1"), decimals, kept.tours);
    const all = score === kept.score ? faults : [...faults, `scores ${score}, said to be ${kept.score}`];
    if (all.length > 0) faulty += 1;
    if (score > Number(known.columns[1])) better += 1;
    console.log(`${file.padEnd(16)} ${score} of ${known.columns[1]} ${all.join("; ")}`);
  }
  console.log(`${files.length} kept, ${better} better than best known, ${faulty} faulty`);
  if (faulty > 0) process.exitCode = 1;
  return Promise.resolve();
}

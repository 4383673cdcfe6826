import { parseArgs } from "node:util";
import { random } from "../../src/kernel/index.ts";
import { processorSeconds } from "../bench/clock.ts";
import { samplePlan } from "../exchange/samplePlan.ts";
import { tryEdits } from "./edits.ts";
import { fileKinds, tryFiles } from "./files.ts";

/**
 * `npm run fuzz -- [--files 2000] [--edits 200] [--longest 30] [--seed 1] [--only plan,CSV]`: spoilt files of every kind and random
 * edits. Nothing may throw and nothing take longer than 2 s of the processor; the exit code is 1 where something does.
 */
const MOST_MS = 2000;

const { values } = parseArgs({
  options: {
    files: { type: "string", default: "2000" },
    edits: { type: "string", default: "200" },
    longest: { type: "string", default: "30" },
    seed: { type: "string", default: "1" },
    only: { type: "string" },
  },
});
const seed = Number(values.seed);
const now = (): number => 1000 * processorSeconds();
const only = values.only?.split(",");
let sound = true;

const tell = (what: string, slowestMs: number, faults: readonly string[]): void => {
  console.log(`${what}; slowest ${Math.round(slowestMs)} ms; ${faults.length === 0 ? "no fault" : "FAULTS"}`);
  for (const fault of faults) console.log(`  ${fault}`);
  if (faults.length > 0 || slowestMs > MOST_MS) sound = false;
};

for (const kind of fileKinds()) {
  if (only && !only.includes(kind.name)) continue;
  const { name, tried, taken, slowestMs, faults } = await tryFiles(
    kind,
    Number(values.files),
    random(seed),
    now,
  );
  tell(`${name}: ${tried} spoilt files, ${taken} taken, ${tried - taken} refused`, slowestMs, faults);
}
if (!only || only.includes("edits")) {
  const { sequences, edits, slowestMs, faults } = tryEdits(
    samplePlan(),
    Number(values.edits),
    Number(values.longest),
    random(seed),
    now,
  );
  tell(`edits: ${sequences} sequences, ${edits} edits`, slowestMs, faults);
}
process.exitCode = sound ? 0 : 1;

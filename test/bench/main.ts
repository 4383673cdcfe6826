/** `npm run bench -- <what> [arguments]`: one module a benchmark, each with `run(args)`. */
interface Bench {
  run(args: string[]): Promise<void>;
}

const benches: Record<string, { readonly says: string; readonly load: () => Promise<Bench> }> = {
  check: { says: "one full judgement and one drag re-check, by plan size", load: () => import("./check.ts") },
};

const [name, ...args] = process.argv.slice(2);
const bench = name === undefined ? undefined : benches[name];
if (!bench) {
  console.error("benchmarks:");
  for (const [key, { says }] of Object.entries(benches)) console.error(`  ${key.padEnd(10)} ${says}`);
  process.exitCode = 2;
} else {
  await (await bench.load()).run(args);
}

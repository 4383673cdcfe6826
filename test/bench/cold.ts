import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";
import type { Cold } from "./coldchild.ts";

/**
 * `npm run bench -- cold [--plans demo,large] [--seeds 10]`: each seed in a process of its own that has never seen a plan. The core is
 * bundled into one file, as it is for the page's worker. Processor ms from modules loaded until the judge finds no breach and every must-do
 * task placed, compile included; and of the whole process until then.
 */
export async function run(args: string[]): Promise<void> {
  const option = (name: string, otherwise: string): string => {
    const at = args.indexOf(`--${name}`);
    return at < 0 ? otherwise : args[at + 1]!;
  };
  const plans = option("plans", "demo,large").split(",");
  const seeds = Number(option("seeds", "10"));
  const folder = mkdtempSync(join(tmpdir(), "cold-"));
  try {
    const child = await bundled(folder);
    console.log("plan    seed  modules  compile and start  sound, every must-do  in all  iterations  worth");
    for (const plan of plans) {
      const rows = Array.from({ length: seeds }, (_, k): Cold => {
        const told = execFileSync(process.execPath, [child, plan, String(k + 1)], { encoding: "utf8" });
        const one = JSON.parse(told) as Cold;
        console.log(
          [
            plan.padEnd(6),
            String(k + 1).padStart(5),
            one.modulesMs.toFixed(0).padStart(8),
            one.startMs.toFixed(0).padStart(18),
            one.soundMs.toFixed(0).padStart(20),
            one.allMs.toFixed(0).padStart(7),
            String(one.iterations).padStart(11),
            String(one.worth).padStart(6),
          ].join(" "),
        );
        return one;
      });
      console.log(
        `${plan}: after modules ${range(rows.map((one) => one.soundMs))}, in all ${range(rows.map((one) => one.allMs))}`,
      );
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The child's program with all that it needs, in one file. */
async function bundled(folder: string): Promise<string> {
  const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
  await build({
    root,
    configFile: false,
    publicDir: false,
    logLevel: "error",
    build: {
      ssr: join(root, "test/bench/coldchild.ts"),
      outDir: folder,
      minify: false,
      rollupOptions: { output: { entryFileNames: "child.mjs" } },
    },
    ssr: { noExternal: true },
    define: { "import.meta.url": JSON.stringify(new URL("../readyplan.ts", import.meta.url).href) },
  });
  return join(folder, "child.mjs");
}

function range(ms: readonly number[]): string {
  const sorted = [...ms].sort((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)]!;
  return `${middle.toFixed(0)} ms in the middle, ${sorted[0]!.toFixed(0)} to ${sorted.at(-1)!.toFixed(0)}`;
}

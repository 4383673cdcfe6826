import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { planJsonSchema } from "../plan/index.ts";
import { READY_PLANS } from "../plan/ready/index.ts";

/** Every file that is made from the sources and lies in `public`: path below it, and text. */
export function madeFiles(): { readonly path: string; readonly text: string }[] {
  const plans = Object.entries(READY_PLANS).map(([name, build]) => ({
    path: `plans/${name}.json`,
    text: asText(build()),
  }));
  return [...plans, { path: "lopeline-plan.schema.json", text: asText(planJsonSchema()) }];
}

/** Writes the made files below `folder`; the paths written. Rejects when one cannot be written. */
export async function writePlans(folder: string): Promise<string[]> {
  await mkdir(join(folder, "plans"), { recursive: true });
  const files = madeFiles();
  await Promise.all(files.map((file) => writeFile(join(folder, file.path), file.text)));
  return files.map((file) => join(folder, file.path));
}

function asText(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}

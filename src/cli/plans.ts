import { mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { migrated, planJsonSchema } from "../plan/index.ts";
import { largePlan } from "../plan/large/index.ts";

/** Plans that are written by hand: their files are the truth, brought up to the newest version of the format here. */
const WRITTEN = ["demo", "small"] as const;

/** Every file in `public` that is made from the sources: path below it, and text. */
export function madeFiles(): { readonly path: string; readonly text: string }[] {
  return [
    { path: "plans/large.json", text: asText(largePlan()) },
    { path: "lopeline-plan.schema.json", text: asText(planJsonSchema()) },
  ];
}

/** Writes the made files below `folder` and brings the written plans up to date; the paths written. Rejects when one cannot be. */
export async function writePlans(folder: string): Promise<string[]> {
  await mkdir(join(folder, "plans"), { recursive: true });
  const files = [...madeFiles(), ...(await Promise.all(WRITTEN.map((name) => upToDate(folder, name))))];
  await Promise.all(files.map((file) => writeFile(join(folder, file.path), file.text)));
  return files.map((file) => join(folder, file.path));
}

async function upToDate(folder: string, name: string): Promise<{ path: string; text: string }> {
  const path = `plans/${name}.json`;
  const brought = migrated(JSON.parse(await readFile(join(folder, path), "utf8")));
  if (!brought.ok) throw new Error(`${path}: ${brought.error[0]?.message ?? "cannot be brought up to date"}`);
  return { path, text: asText(brought.value) };
}

function asText(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}

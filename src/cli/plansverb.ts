import type { ExitCode, Streams } from "./verb.ts";
import { fileTrouble } from "./planinput.ts";
import { writePlans } from "./plans.ts";
import { refuse } from "./refusal.ts";

/** `plans`: writes the ready plans and the JSON Schema into public/. */
export async function plansVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  if (args.length > 0) refuse(`plans takes nothing more; left over: ${args.join(" ")}`);
  try {
    for (const path of await writePlans("public")) streams.out(`${path}\n`);
  } catch (error) {
    refuse(`public cannot be written: ${fileTrouble(error)}`);
  }
  return 0;
}

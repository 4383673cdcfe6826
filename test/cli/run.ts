import { lope } from "../../src/cli/command.ts";

/** Runs the headless command in this process: its exit code, and what it said. */
export async function run(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  let out = "";
  let err = "";
  const code = await lope(args, {
    out: (text) => void (out += text),
    err: (text) => void (err += text),
    stop: new AbortController().signal,
  });
  return { code, out, err };
}

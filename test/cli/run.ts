import { lope } from "../../src/cli/command.ts";

interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the headless command in this process: its exit code, and what it said. */
export function run(...args: string[]): Promise<Said> {
  return runUntil(new AbortController().signal, ...args);
}

/** The same until a Ctrl-C, which `stop` stands for. */
export async function runUntil(stop: AbortSignal, ...args: string[]): Promise<Said> {
  let out = "";
  let err = "";
  const code = await lope(args, {
    out: (text) => void (out += text),
    err: (text) => void (err += text),
    stop,
  });
  return { code, out, err };
}

import { withHiddenShown } from "../plan/index.ts";
import { HELP } from "./help.ts";
import { Refusal, refuse } from "./refusal.ts";
import type { ExitCode, Streams, Verb } from "./verb.ts";

/** A verb's code is loaded when it is called: help and check need neither solver nor PDF. */
const VERBS: Readonly<Record<string, () => Promise<Verb>>> = {
  check: async () => (await import("./checkverb.ts")).checkVerb,
  pack: async () => (await import("./packverb.ts")).packVerb,
  grid: async () => (await import("./gridverb.ts")).gridVerb,
  heights: async () => (await import("./heightsverb.ts")).heightsVerb,
  cuff: async () => (await import("./cuffverb.ts")).cuffVerb,
  sheet: async () => (await import("./sheetverb.ts")).sheetVerb,
  export: async () => (await import("./exportverb.ts")).exportVerb,
  diff: async () => (await import("./diffverb.ts")).diffVerb,
  odds: async () => (await import("./oddsverb.ts")).oddsVerb,
  curve: async () => (await import("./curveverb.ts")).curveVerb,
  shed: async () => (await import("./shedverb.ts")).shedVerb,
  rehearse: async () => (await import("./rehearseverb.ts")).rehearseVerb,
  why: async () => (await import("./whyverb.ts")).whyVerb,
  from: async () => (await import("./fromverb.ts")).fromVerb,
  plans: async () => (await import("./plansverb.ts")).plansVerb,
};

/** Verbs whose searches may end at any time, with what they have found until then as the answer. */
const ANSWER_WHEN_STOPPED: ReadonlySet<string> = new Set(["pack", "curve", "why"]);

/** True where a verb that is broken off still answers; any other has nothing that it could say then. */
export function answersWhenStopped([verb]: readonly string[]): boolean {
  return verb !== undefined && ANSWER_WHEN_STOPPED.has(verb);
}

/** Runs `lope <verb> ...`; the exit code. Bad input or use is told on the error stream, never thrown. */
export async function lope(args: readonly string[], terminal: Streams): Promise<ExitCode> {
  // Whatever stands in a file: nothing in it moves the terminal's cursor or turns what is written around it.
  const streams: Streams = {
    ...terminal,
    out: (text) => terminal.out(withHiddenShown(text)),
    err: (text) => terminal.err(withHiddenShown(text)),
  };
  const [verb, ...rest] = args;
  if (verb === "help" || verb === "--help" || verb === "-h" || rest.includes("--help")) {
    streams.out(HELP);
    return 0;
  }
  try {
    const load = verb !== undefined && Object.hasOwn(VERBS, verb) ? VERBS[verb] : undefined;
    if (!load) refuse(`${verb === undefined ? "no verb given" : `there is no verb "${verb}"`}\n${HELP}`);
    return await (
      await load()
    )(rest, streams);
  } catch (error) {
    if (error instanceof Refusal) {
      for (const line of error.lines) streams.err(`lope: ${line}\n`);
      return 2;
    }
    // Never 1: a crash must not pass for a verdict.
    const trace = error instanceof Error ? (error.stack ?? error.message) : String(error);
    streams.err(`lope: a defect in the program, please report it:\n${trace}\n`);
    return 3;
  }
}

import { parseArgs, type ParseArgsConfig } from "node:util";
import { refuse } from "./refusal.ts";

/** The one plan file and the options of a verb. Throws a Refusal for anything else on the line. */
export function readOptions<T extends NonNullable<ParseArgsConfig["options"]>>(
  verb: string,
  args: readonly string[],
  options: T,
) {
  const read = parsed(args, options);
  const [path, ...more] = read.positionals;
  if (path === undefined) return refuse(`say which plan: lope ${verb} plan.json`);
  if (more.length > 0) return refuse(`one plan at a time; left over: ${more.join(" ")}`);
  return { path, values: read.values };
}

/** The two plan files, before and after, and the options of a verb. Throws a Refusal for anything else on the line. */
export function readTwo<T extends NonNullable<ParseArgsConfig["options"]>>(
  verb: string,
  args: readonly string[],
  options: T,
) {
  const read = parsed(args, options);
  const [before, after, ...more] = read.positionals;
  if (before === undefined || after === undefined)
    return refuse(`say which plans: lope ${verb} before.json after.json`);
  if (more.length > 0) return refuse(`two plans at a time; left over: ${more.join(" ")}`);
  return { paths: [before, after] as const, values: read.values };
}

function parsed<T extends NonNullable<ParseArgsConfig["options"]>>(args: readonly string[], options: T) {
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (error) {
    // Node words these for people: unknown option, missing value.
    return refuse(error instanceof Error ? error.message : "the options cannot be read");
  }
}

/** A number given on the line, within bounds. */
export function numberOption(
  name: string,
  given: string | undefined,
  bounds: { readonly least: number; readonly most: number; readonly whole: boolean },
): number | undefined {
  if (given === undefined) return undefined;
  const value = given.trim() === "" ? NaN : Number(given);
  const { least, most, whole } = bounds;
  if (!Number.isFinite(value) || value < least || value > most || (whole && !Number.isInteger(value))) {
    return refuse(`--${name} ${given}: give a ${whole ? "whole " : ""}number from ${least} to ${most}`);
  }
  return value;
}

/** The paper asked for by `--paper`, one of `papers`. */
export function paperOf<Paper extends string>(given: string, papers: readonly Paper[]): Paper {
  return (
    papers.find((one) => one === given) ??
    refuse(`--paper ${given}: give ${papers.slice(0, -1).join(", ")} or ${papers.at(-1) ?? ""}`)
  );
}

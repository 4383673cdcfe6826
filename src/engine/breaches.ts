import type { Verdict } from "../answers/index.ts";

/** What a verdict says is broken: by rule and subjects, how far what there is lies from what is needed, in the finding's unit. */
export function breachesOf({ findings }: Verdict): ReadonlyMap<string, number> {
  return new Map(
    findings
      .filter(({ level }) => level === "breach")
      .map(({ rule, subjects, need, have }) => [
        [rule, ...subjects.map(({ kind, id }) => `${kind} ${id}`)].join("|"),
        need === null || have === null ? 0 : Math.abs(have - need),
      ]),
  );
}

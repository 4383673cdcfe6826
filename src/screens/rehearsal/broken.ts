import type { Finding } from "../../answers/index.ts";
import type { Rehearsed } from "../../session/index.ts";
import { readFindings } from "../words.ts";

/** What breaks a rule as the day goes and did not as it was planned, the most pressing first. */
export function aheadBreaches({ planned, verdict }: Rehearsed): readonly Finding[] {
  const known = new Set(planned.findings.map((finding) => `${finding.rule} ${finding.sentence}`));
  return readFindings(verdict.findings).filter(
    (finding) => finding.level === "breach" && !known.has(`${finding.rule} ${finding.sentence}`),
  );
}

import type { Finding } from "../../answers/index.ts";
import { newBreaches, type Rehearsed } from "../../session/index.ts";
import { readFindings } from "../words.ts";

/** What breaks a rule as the day goes and did not as it was planned, the most pressing first. */
export function aheadBreaches({ planned, verdict }: Rehearsed): readonly Finding[] {
  return newBreaches(planned, readFindings(verdict.findings));
}

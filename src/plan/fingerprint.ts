import { canonicalJson, remembered, sha256 } from "../kernel/index.ts";
import type { Plan } from "./plan.ts";
import { REMARKS } from "./remarks.ts";

/** Parts that make it no other day. */
const APART: ReadonlySet<string> = new Set(["variants", ...REMARKS]);

/** Branches as text, kept while they are the same object: an edit leaves most of a plan alone. */
const keptText = remembered((branch: object): string => canonicalJson(branch));

function textOf(branch: unknown): string {
  return typeof branch === "object" && branch !== null ? keptText(branch) : canonicalJson(branch);
}

/**
 * By what a state of a plan is known, whatever it is called: SHA-256 of its canonical JSON (RFC 8785) in UTF-8, 64 hexadecimal digits.
 * The plan is taken with all its defaults and its schedule, as this version of the format has it, and without its variants and what people say of
 * it: another day that is only kept beside it prints no other page, and a comment changes no day. Two plans with one fingerprint are the same in all else.
 */
export const fingerprint = remembered((plan: Plan): string =>
  sha256(
    new TextEncoder().encode(
      `{${Object.entries(plan)
        .filter(([name, branch]) => !APART.has(name) && branch !== undefined)
        .map(([name, branch]) => [name, `${canonicalJson(name)}:${textOf(branch)}`] as const)
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([, text]) => text)
        .join(",")}}`,
    ),
  ),
);

/** The first eight digits, as they are read out: "b445 2e9d". */
export function shortFingerprint(plan: Plan): string {
  const whole = fingerprint(plan);
  return `${whole.slice(0, 4)} ${whole.slice(4, 8)}`;
}

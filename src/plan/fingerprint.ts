import { canonicalJson, sha256 } from "../kernel/index.ts";
import type { Plan } from "./plan.ts";
import { SAID } from "./said.ts";

/** Parts that make it no other day. */
const APART: ReadonlySet<string> = new Set(["variants", ...SAID]);

/** Branches as text, kept while they are the same object: an edit leaves most of a plan alone. */
const texts = new WeakMap<object, string>();
const known = new WeakMap<Plan, string>();

function textOf(branch: unknown): string {
  if (typeof branch !== "object" || branch === null) return canonicalJson(branch);
  const text = texts.get(branch) ?? canonicalJson(branch);
  texts.set(branch, text);
  return text;
}

/**
 * By what a state of a plan is known, whatever it is called: SHA-256 of its canonical JSON (RFC 8785) in UTF-8, 64 hexadecimal digits.
 * The plan is taken with all its defaults and its schedule, as this version of the format has it, and without its variants and what people say of
 * it: another day that is only kept beside it prints no other page, and a comment changes no day. Two plans with one fingerprint are the same in all else.
 */
export function fingerprint(plan: Plan): string {
  const made =
    known.get(plan) ??
    sha256(
      new TextEncoder().encode(
        `{${Object.entries(plan)
          .filter(([name, branch]) => !APART.has(name) && branch !== undefined)
          .map(([name, branch]) => [name, `${canonicalJson(name)}:${textOf(branch)}`] as const)
          .sort(([a], [b]) => (a < b ? -1 : 1))
          .map(([, text]) => text)
          .join(",")}}`,
      ),
    );
  known.set(plan, made);
  return made;
}

/** The first eight digits, as they are read out: "b445 2e9d". */
export function shortFingerprint(plan: Plan): string {
  const whole = fingerprint(plan);
  return `${whole.slice(0, 4)} ${whole.slice(4, 8)}`;
}

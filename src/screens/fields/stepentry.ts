import { done, failed, type Outcome } from "../../kernel/index.ts";
import type { Blank, Caution, Step } from "../../plan/index.ts";
import { cautionLine, CLASS_WORDS, listed, stepLine } from "../../words/index.ts";
import { type Entry, partsOf } from "./entry.ts";

/** Steps and cautions as lines of text (`words/step` has the form): what people write, and paste from elsewhere. */

const CLASSED = /^(WARNING|CAUTION|NOTE|CLASS\?):\s*(.+)$/s;
const WHEN = /^IF\s+(.+?),?\s+THEN\s+(.+)$/s;
const BLANK = /^(.*\S)\s*\[(reading|mass|photo)(?:,\s*([^\]]{1,12}?))?\s*\]$/s;

/** Cautions, one a line, the class before each. */
export const cautionLines: Entry = {
  editor: "area",
  onPaper: "cautions",
  align: "start",
  show: (value) => cautionsIn(value).map(cautionLine).join(" · "),
  draft: (value) => cautionsIn(value).map(cautionLine).join("\n"),
  read: (draft) => done(partsOf(draft, /\n/).map((line) => cautionIn(line) ?? { text: line })),
  form: "One a line: WARNING: may injure or kill. CAUTION: may lose equipment or data. NOTE: a condition.",
};

/** Steps, one a line, the cautions that guard a step before it. `doers` are those who take part. */
export function stepLines(doers: readonly string[]): Entry {
  const linesOf = (value: unknown): string[] =>
    stepsIn(value).flatMap((step) => [...step.cautions.map(cautionLine), stepLine(step, doers)]);
  return {
    editor: "area",
    onPaper: "steps",
    align: "start",
    show: (value) => linesOf(value).join(" · "),
    draft: (value) => linesOf(value).join("\n"),
    read: (draft) => readSteps(partsOf(draft, /\n/), doers),
    form: `One a line. WARNING:, CAUTION: or NOTE: before the step that it guards; IF … THEN …; ${
      doers.length > 1 ? `${doers[1]}: for ${doers[1]}'s own; ` : ""
    }[reading, °C], [mass] or [photo] at its end for a blank.`,
  };
}

function readSteps(lines: readonly string[], doers: readonly string[]): Outcome<Step[], string> {
  const steps: Step[] = [];
  let cautions: Caution[] = [];
  for (const line of lines) {
    const caution = cautionIn(line);
    if (caution) {
      cautions.push(caution);
      continue;
    }
    const step = stepIn(line, doers);
    if (!step.ok) return step;
    steps.push({ ...step.value, cautions });
    cautions = [];
  }
  if (cautions.length === 0) return done(steps);
  return failed(
    `${cautionLine(cautions[0]!)}: no step follows that it guards. Put it before one, or under Cautions.`,
  );
}

function stepIn(line: string, doers: readonly string[]): Outcome<Omit<Step, "cautions">, string> {
  const [, who = "", rest = line] = /^([^:\s]+):\s*(.+)$/s.exec(line) ?? [];
  const known = doers.findIndex((name) => name.toLowerCase() === who.toLowerCase());
  const place = /^([1-4])(?:st|nd|rd|th)$/i.exec(who);
  const by = known >= 0 ? known + 1 : place ? Number(place[1]) : undefined;
  if (by === undefined && /^EV\d$/i.test(who))
    return failed(
      `Nobody here is called ${who}: write ${listed(doers.map((name) => `${name}:`))}, or nothing for all.`,
    );
  const action = by === undefined ? line : rest;
  const [, what = action, of, unit = ""] = BLANK.exec(action) ?? [];
  const [, when, then = what] = WHEN.exec(what) ?? [];
  if (when === undefined && /^IF\s/.test(what)) return failed(`“${what}” has no THEN.`);
  return done({
    ...(when === undefined ? {} : { when }),
    text: then,
    ...(by === undefined ? {} : { by }),
    ...(of === undefined ? {} : { blank: { of: of as Blank["of"], unit } }),
  });
}

function cautionIn(line: string): Caution | null {
  const [, word, text] = CLASSED.exec(line) ?? [];
  if (text === undefined) return null;
  const kind = (Object.keys(CLASS_WORDS) as (keyof typeof CLASS_WORDS)[]).find(
    (one) => CLASS_WORDS[one] === word,
  );
  return { ...(kind === undefined ? {} : { class: kind }), text };
}

function stepsIn(value: unknown): readonly Step[] {
  return Array.isArray(value) ? (value as readonly Step[]) : [];
}

function cautionsIn(value: unknown): readonly Caution[] {
  return Array.isArray(value) ? (value as readonly Caution[]) : [];
}

import { done, duration, failed } from "../../kernel/index.ts";
import type { Mishap } from "../../plan/index.ts";
import { bare, clock } from "../../words/index.ts";
import { emptyRead, type Entry, numberIn } from "./entry.ts";
import { secondsIn } from "./timeentry.ts";

const CHANCE = /^([\d.,]+)\s*%$/;
const FORM = "What happens; its chance; how much longer; lost: jams; 2 %; 0:10 longer; lost.";

/** Something rare that may go wrong on a simulated day: what, its chance, what comes of it, with semicolons between. */
export const mishap: Entry = {
  editor: "line",
  align: "start",
  show: written,
  draft: written,
  read(draft, _plan, guide) {
    if (draft.trim() === "") return emptyRead(guide);
    const parts = draft.split(";").map((part) => part.trim());
    const at = parts.findIndex((part) => CHANCE.test(part));
    const chance = at < 0 ? null : numberIn(CHANCE.exec(parts[at]!)![1]!);
    const what = parts.slice(0, Math.max(0, at)).join("; ");
    if (chance === null || chance > 100 || what === "") return failed(`Write it so: ${FORM}`);
    const made: { -readonly [K in keyof Mishap]: Mishap[K] } = {
      what,
      chance: Number((chance / 100).toPrecision(12)),
    };
    for (const part of parts.slice(at + 1)) {
      const extraS = secondsIn(part.replace(/\s*longer$/, ""));
      if (part === "lost") made.spoils = true;
      else if (extraS !== null && extraS >= 0) made.extraS = duration(extraS);
      else return failed(`“${part}” is neither a length of time nor “lost”. ${FORM}`);
    }
    return done(made);
  },
  form: FORM,
};

function isMishap(value: unknown): value is Mishap {
  return typeof value === "object" && value !== null && "what" in value && "chance" in value;
}

function written(value: unknown): string {
  if (!isMishap(value)) return "";
  const { what, chance, extraS, spoils } = value;
  return [
    what,
    `${bare(Number((chance * 100).toPrecision(12)))} %`,
    ...(extraS === undefined ? [] : [`${clock(extraS)} longer`]),
    ...(spoils === true ? ["lost"] : []),
  ].join("; ");
}

import { SIGNS } from "./faces/advances.ts";

/**
 * Any Unicode text as the signs that the faces of paper have. What cannot be
 * shown becomes BOX, which is drawn as an empty frame: visible, never silently lost, never an error.
 */

/** Stands for one character that the paper cannot show. */
export const BOX = "\u25a1";

/** Signs with an accepted plain form. Everything else is kept, unaccented, or boxed. */
const plainForms: Readonly<Record<string, string>> = {
  "\u2010": "-",
  "\u2011": "-",
  "\u2012": "\u2013",
  "\u2015": "\u2014",
  "\u2212": "\u2013",
  "\u2032": "'",
  "\u2033": '"',
  "\u2190": "<-",
  "\u2192": "->",
  "\u2194": "<->",
  "\u21d2": "=>",
  "\u2248": "~",
  "\u2260": "not =",
  "\u2264": "<=",
  "\u2265": ">=",
  "\u2043": "\u2022",
  "\u25cf": "\u2022",
};

/** A blank at which no line is broken. */
export const JOINING = "\u00a0";

/** `text` in printable characters on one line: breaks and runs of blanks become one blank, control signs go. */
export function printable(text: string): string {
  return unbroken(text).replaceAll(JOINING, " ");
}

/** The same with `JOINING` where the text has a blank that breaks no line, as between the figures of 12 345. */
export function unbroken(text: string): string {
  let out = "";
  for (const sign of text.normalize("NFC"))
    out += /[\u00a0\u2007\u202f]/u.test(sign) ? JOINING : /\s/u.test(sign) ? " " : one(sign);
  return out.replace(/[ \u00a0]{2,}/g, (run) => (run.includes(" ") ? " " : JOINING)).trim();
}

/** `name`, followed by `id` in brackets where the paper cannot show all of the name. */
export function legible(name: string, id: string): string {
  return printable(name).includes(BOX) ? `${name} (${id})` : name;
}

function one(sign: string): string {
  if (/[\p{Cc}\p{Cf}\p{M}]/u.test(sign)) return "";
  if (has(sign)) return sign;
  const plain = plainForms[sign];
  if (plain !== undefined) return plain;
  // Ligatures, full-width letters and the like have a compatible plain form; other letters may lose their accents.
  const compatible = sign.normalize("NFKC");
  if ([...compatible].every(has)) return compatible;
  const bare = sign.normalize("NFKD").replace(/\p{M}/gu, "");
  return bare !== "" && [...bare].every(has) ? bare : BOX;
}

const signs: ReadonlySet<string> = new Set(SIGNS.latin + SIGNS["latin-ext"]);

function has(sign: string): boolean {
  return signs.has(sign);
}

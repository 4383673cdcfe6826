/**
 * Numbers as everybody reads them here: a decimal point, thin groups of three from a thousand on, a true minus sign, never
 * a minus before nothing.
 *
 * One table says to how many figures a quantity is said; one side says which way what does not fit is put. A margin is
 * never rounded up and a need never down:
 *
 * | side    | what it is for                                              |
 * | ------- | ----------------------------------------------------------- |
 * | `up`    | what is needed, taken, carried, walked; "not before"        |
 * | `down`  | what is left, held or allowed; "no later than"              |
 * | `given` | what the plan itself says, or what was tested: as it stands |
 *
 * | quantity           | said in      | to                                   |
 * | ------------------ | ------------ | ------------------------------------ |
 * | moment             | h:mm         | the minute; as given to the second   |
 * | length of time     | s, min, h:mm | the minute; the second under one     |
 * | distance           | m, km        | three figures, no finer than 0.1 m   |
 * | mass               | kg           | 0.1 kg; as given to the gram         |
 * | stock of a suit    | kg, Wh       | 1 g, 0.1 Wh                          |
 * | volume             | L            | 0.1 L; as given to the millilitre    |
 * | heat               | kJ           | 1 kJ                                 |
 * | share of a stock   | %            | 1 %; as given to 0.01 %              |
 * | angle              | °            | 0.1°                                 |
 * | bearing            | °            | whole degrees, three figures         |
 */
export type Side = "up" | "down" | "given";

export const MINUS = "−";

/** `value` on a whole number of `step`, to the side; a millionth of a step absorbs the noise of the division. Never -0. */
export function stepped(value: number, step: number, side: "up" | "down"): number {
  const steps = value / step;
  return (side === "down" ? Math.floor(steps + 1e-6) : Math.ceil(steps - 1e-6)) + 0;
}

/** `value` with just `decimals` of them, rounded to the side: `0.290`. */
export function fixed(value: number, decimals: number, side: "up" | "down"): string {
  const scale = 10 ** decimals;
  // Multiplied and not divided by a step: 0.29 is 29 hundredths, and no tenth of a millionth less.
  return text((stepped(value * scale, 1, side) / scale).toFixed(decimals));
}

/** `value` with at most `decimals` of them, rounded to the side; without a tail of zeros. */
export function rounded(value: number, decimals: number, side: Side): string {
  if (side === "given") return digits(value);
  const scale = 10 ** decimals;
  return text(String(stepped(value * scale, 1, side) / scale));
}

/** A number as it stands, to at most `figures`: 12 leave no binary remainder to see, 6 are enough to follow a sum. */
export function digits(value: number, figures = 12): string {
  return text(bare(value, figures));
}

/** The same without groups, where it is edited or added up by a machine. */
export function bare(value: number, figures = 12): string {
  return String(Number(value.toPrecision(figures)) + 0).replace("-", MINUS);
}

/** A whole number in groups: `1 874`. */
export function grouped(value: number): string {
  return text(String(Math.trunc(value)));
}

/** A difference with its sign: `+3`, `−2`, `0`. */
export function signed(value: number): string {
  return value > 0 ? `+${grouped(value)}` : grouped(value);
}

/** In groups, with a true minus sign unless all figures are noughts. */
function text(figures: string): string {
  const [whole = "", ...rest] = figures.replace(/^[-−]/, "").split(".");
  const size = [whole.replace(/\B(?=(\d{3})+$)/g, "\u202f"), ...rest].join(".");
  return /^[-−]/.test(figures) && /[1-9]/.test(size) ? MINUS + size : size;
}

/** Spaces or apostrophes between thousands, in groups of three. */
const SPACED = /^([+-]?)\s*(\d{1,3}(?:([\s'’])\d{3})(?:\3\d{3})*)([.,]\d*)?$/;

/** A number as people wrote it, with a plain minus and nothing between its thousands but point and comma. */
export function ungrouped(draft: string): string {
  const given = draft
    .trim()
    .replace("−", "-")
    .replace(/^([+-])\s+/, "$1");
  const [, sign = "", whole, , decimals = ""] = SPACED.exec(given) ?? [];
  return whole === undefined ? given : `${sign}${whole.replace(/\D/g, "")}${decimals}`;
}

/** A written length of time without the spaces about its units; those between two digits stay, but for a group of three, since `10 15` is no 1015. */
export function unspaced(text: string): string {
  return text.replace(/(?<=\d)\s(?=\d{3}(?!\d))/g, "").replace(/(?<!\d)\s+|\s+(?!\d)/g, "");
}

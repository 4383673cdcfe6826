import type { Random } from "../../src/kernel/index.ts";

/**
 * Documents as another program, or a hand in a text editor, gets them wrong: well-formed JSON whose values are not what they should be.
 * Spoilt bytes rarely come past the parser; these do, and reach what stands behind it.
 */

const ODD: readonly unknown[] = [
  ...[0, -1, 1, 60, 1e9, -1e9, 1e308, 0.1, 1e-300, 9007199254740991],
  ...[
    "",
    " ",
    "x",
    "lander",
    "\u202egnol",
    "a".repeat(200),
    "2031-02-30T00:00:00Z",
    "constructor",
    "__proto__",
  ],
  ...[null, true, false, [], {}, [[]], [null]],
];

type Holder = Record<string, unknown> | unknown[];

/** The document of a JSON text with one to four values misshapen, as a text again. */
export function misshapen(text: string, draw: Random): string {
  const document = JSON.parse(text) as unknown;
  for (let left = 1 + draw.below(4); left > 0; left -= 1) {
    const spots = spotsIn(document);
    const spot = spots[draw.below(Math.max(1, spots.length))];
    if (spot) spoil(spot.holder, spot.key, draw);
  }
  return JSON.stringify(document);
}

function spotsIn(document: unknown): { readonly holder: Holder; readonly key: string | number }[] {
  if (typeof document !== "object" || document === null) return [];
  const holder = document as Holder;
  const keys = Array.isArray(holder) ? [...holder.keys()] : Object.keys(holder);
  return keys.flatMap((key) => [
    { holder, key },
    ...spotsIn((holder as Record<string | number, unknown>)[key]),
  ]);
}

function spoil(holder: Holder, key: string | number, draw: Random): void {
  const list = holder as Record<string | number, unknown>;
  const value = list[key];
  const odd = ODD[draw.below(ODD.length)];
  switch (draw.below(5)) {
    case 0:
      if (Array.isArray(holder)) holder.splice(Number(key), 1);
      else delete list[key];
      return;
    case 1:
      if (Array.isArray(holder)) holder.splice(Number(key), 0, structuredClone(value));
      else list[`${key}x`] = structuredClone(value);
      return;
    case 2:
      // Somewhat more or less of the same: what looks right and is not.
      list[key] = typeof value === "number" ? value * (draw.next() * 4 - 1) : odd;
      return;
    case 3:
      if (Array.isArray(holder)) holder.reverse();
      else list[key] = Array.isArray(value) ? [...(value as unknown[])].reverse() : odd;
      return;
    default:
      list[key] = odd;
  }
}

import type { Random } from "../../src/kernel/index.ts";

/** Bytes as accidents and ill will change them: signs turned, cut out, doubled, moved, numbers made extreme, ends lost. */

const EXTREMES = [
  "0",
  "-1",
  "1e308",
  "-1e308",
  "9007199254740993",
  "NaN",
  "null",
  "true",
  '""',
  "[]",
  "{}",
  "0x10",
];

/** One to eight changes of a file; texts also in their numbers and words. */
export function mutated(bytes: Uint8Array, draw: Random): Uint8Array {
  let now = bytes;
  for (let left = 1 + draw.below(8); left > 0; left -= 1)
    now = CHANGES[draw.below(CHANGES.length)]!(now, draw);
  return now;
}

type Change = (bytes: Uint8Array, draw: Random) => Uint8Array;

const CHANGES: readonly Change[] = [
  (bytes, draw) => {
    const next = bytes.slice();
    if (next.length > 0) next[draw.below(next.length)] = draw.below(256);
    return next;
  },
  (bytes, draw) => {
    const [from, to] = stretch(bytes, draw);
    return joined(bytes.slice(0, from), bytes.slice(to));
  },
  (bytes, draw) => {
    const [from, to] = stretch(bytes, draw);
    return joined(bytes.slice(0, to), bytes.slice(from));
  },
  (bytes, draw) => {
    const [from, to] = stretch(bytes, draw);
    const at = draw.below(bytes.length + 1);
    return joined(bytes.slice(0, at), bytes.slice(from, to), bytes.slice(at));
  },
  (bytes, draw) => bytes.slice(0, draw.below(bytes.length + 1)),
  (bytes, draw) => {
    // A number or word of a text, found by its first digit or letter.
    const text = new TextDecoder("latin1").decode(bytes);
    const tokens = [...text.matchAll(/-?\d+(?:\.\d+)?|"[^"\n]{0,40}"/g)];
    const token = tokens[draw.below(Math.max(1, tokens.length))];
    if (!token) return bytes;
    const other = EXTREMES[draw.below(EXTREMES.length)]!;
    const end = token.index + token[0].length;
    return Uint8Array.from(text.slice(0, token.index) + other + text.slice(end), (sign) =>
      sign.charCodeAt(0),
    );
  },
];

function stretch(bytes: Uint8Array, draw: Random): [from: number, to: number] {
  const from = draw.below(bytes.length + 1);
  return [from, Math.min(bytes.length, from + draw.below(200))];
}

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

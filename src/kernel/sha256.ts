/** SHA-256, FIPS 180-4 (2015): the digest of bytes as 64 hexadecimal digits. */

/** Primes in order, as many as asked for. */
function primes(count: number): number[] {
  const found: number[] = [];
  for (let n = 2; found.length < count; n += 1) if (found.every((one) => n % one !== 0)) found.push(n);
  return found;
}

/** The first 32 bits behind the point. */
const fraction = (value: number): number => ((value % 1) * 2 ** 32) | 0;

// Sections 4.2.2 and 5.3.3: of the cube roots of the first 64 primes, and the square roots of the first eight.
const CONSTANTS = Int32Array.from(primes(64), (prime) => fraction(Math.cbrt(prime)));
const BEGIN = Int32Array.from(primes(8), (prime) => fraction(Math.sqrt(prime)));

const turned = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

export function sha256(bytes: Uint8Array): string {
  const hash = Int32Array.from(BEGIN);
  const padded = new Uint8Array((((bytes.length + 8) >> 6) << 6) + 64);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  // The length in bits, in 64 of them.
  view.setUint32(padded.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(padded.length - 4, (bytes.length << 3) >>> 0);
  const words = new Int32Array(64);
  for (let at = 0; at < padded.length; at += 64) {
    for (let t = 0; t < 16; t += 1) words[t] = view.getInt32(at + 4 * t);
    mix(hash, words);
  }
  return Array.from(hash, (word) => (word >>> 0).toString(16).padStart(8, "0")).join("");
}

/** Section 6.2.2: one block of 16 words, with room for 64. */
function mix(hash: Int32Array, words: Int32Array): void {
  for (let t = 16; t < 64; t += 1) {
    const [far, near] = [words[t - 15] ?? 0, words[t - 2] ?? 0];
    const small = turned(far, 7) ^ turned(far, 18) ^ (far >>> 3);
    const large = turned(near, 17) ^ turned(near, 19) ^ (near >>> 10);
    words[t] = (words[t - 16] ?? 0) + small + (words[t - 7] ?? 0) + large;
  }
  let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = hash;
  for (let t = 0; t < 64; t += 1) {
    const chosen = (e & f) ^ (~e & g);
    const one =
      h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + chosen + (CONSTANTS[t] ?? 0) + (words[t] ?? 0);
    const most = (a & b) ^ (a & c) ^ (b & c);
    const two = (turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + most;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + two) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, k) => (hash[k] = (hash[k] ?? 0) + word));
}

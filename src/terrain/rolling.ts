import { random } from "../kernel/index.ts";

/**
 * Rolling ground between the craters: noise of many wavelengths laid over each other.
 *
 * Each octave halves the wavelength and multiplies the swing by `2^-hurst`. Hurst exponents measured on the Moon:
 * median 0.95 in the highlands, 0.76 in the maria (Rosenburg et al. 2011, J Geophys Res 116:E02001, value from
 * memory). Values on a lattice, quintic in between. Range: wavelengths from four cells to the longer side of the
 * grid. Not covered: ridges, rilles, layers: anything with a shape.
 */

/** Adds to `heightM` (row by row) rolling ground of standard swing `swingM`. */
export function addRolling(
  heightM: Float64Array,
  columns: number,
  seed: number,
  swingM: number,
  hurst: number,
): void {
  if (swingM === 0) return;
  const rows = heightM.length / columns;
  const source = random(seed);
  const waves: number[] = [];
  for (let wave = Math.max(columns, rows); wave >= 4; wave /= 2) waves.push(wave);
  const gain = 2 ** -hurst;
  const all = Math.sqrt(waves.reduce((sum, _, k) => sum + gain ** (2 * k), 0));
  waves.forEach((wave, k) => {
    // A value uniform in -1 to 1, bilinear in between, swings by about a third on the mean.
    addOctave(heightM, columns, wave, (swingM / all) * gain ** k * 3, source.split());
  });
}

function addOctave(
  heightM: Float64Array,
  columns: number,
  wave: number,
  swingM: number,
  source: { next(): number },
): void {
  const rows = heightM.length / columns;
  const across = Math.ceil(columns / wave) + 2;
  const lattice = Float64Array.from(
    { length: across * (Math.ceil(rows / wave) + 2) },
    () => source.next() * 2 - 1,
  );
  for (let row = 0; row < rows; row += 1) {
    const y = row / wave;
    const v = eased(y - Math.floor(y));
    const base = Math.floor(y) * across;
    for (let column = 0; column < columns; column += 1) {
      const x = column / wave;
      const u = eased(x - Math.floor(x));
      const at = base + Math.floor(x);
      const south = lattice[at]! + (lattice[at + 1]! - lattice[at]!) * u;
      const north = lattice[at + across]! + (lattice[at + across + 1]! - lattice[at + across]!) * u;
      heightM[row * columns + column]! += swingM * (south + (north - south) * v);
    }
  }
}

/** From 0 to 1 with no kink at the lattice points. */
function eased(t: number): number {
  return t * t * t * (t * (t * 6 - 15) + 10);
}

/**
 * A sign of life from inside long work. Whoever runs the core where somebody waits for it, such as a worker, says what a pulse does;
 * what works for long without giving way calls `pulse` now and then, at least once in some hundredths of a second of work.
 */
let beat: () => void = () => undefined;

/** From now on every pulse is told to `tell`. */
export function onPulse(tell: () => void): void {
  beat = tell;
}

/** Says that work goes on. It changes nothing in the work itself. */
export function pulse(): void {
  beat();
}

/** Thrown when the program contradicts itself: a defect, never bad user input. */
class InvariantError extends Error {
  override name = "InvariantError";
}

/** Holds `condition` to be true; throws InvariantError with `message` (give names and values) when it is not. */
export function invariant(condition: unknown, message: string): asserts condition {
  if (!condition) throw new InvariantError(message);
}

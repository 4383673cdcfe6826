/** The result of something that may fail for a reason the caller must handle. */
export type Outcome<T, E> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };

/** A success carrying `value`. */
export function done<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

/** A failure carrying `error`. */
export function failed<E>(error: E): { readonly ok: false; readonly error: E } {
  return { ok: false, error };
}

/** Seconds to walk from one place to another at the planned speed; null where there is no way. */
export type WalkS = (from: string, to: string) => number | null;

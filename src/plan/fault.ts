/** One thing wrong with a file: where (`tasks.3.duration.likelyS`) and what, in words. */
export interface Fault {
  readonly path: string;
  readonly message: string;
}

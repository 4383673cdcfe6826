/** Where a verb writes its words, and how it is told to stop. */
export interface Streams {
  /** Results, on standard output. */
  out(text: string): void;
  /** Faults and asides, on standard error. */
  err(text: string): void;
  /** Aborts when the user breaks off. */
  readonly stop: AbortSignal;
}

/** done: 0; the plan has breaches: 1; bad input or use: 2; a defect of the program: 3. */
export type ExitCode = 0 | 1 | 2 | 3;

/** One verb of the command, given what follows it on the line. */
export type Verb = (args: readonly string[], streams: Streams) => Promise<ExitCode>;

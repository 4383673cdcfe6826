/** Bad input or bad use: what is wrong, one line a fault. Ends the command with exit code 2, nothing written. */
export class Refusal extends Error {
  override name = "Refusal";
  readonly lines: readonly string[];
  constructor(lines: readonly string[]) {
    super(lines.join("\n"));
    this.lines = lines;
  }
}

/** Throws a Refusal of one line. */
export function refuse(line: string): never {
  throw new Refusal([line]);
}

import { answersWhenStopped, lope } from "./command.ts";
import { fileTrouble } from "./planinput.ts";

const control = new AbortController();
const args = process.argv.slice(2);
process.once("SIGINT", () => breakOff(130));
process.once("SIGTERM", () => breakOff(143));

/** Ends at once, but for verbs that answer with what they have found; `code` is 128 and the number of the signal. */
function breakOff(code: number): void {
  if (answersWhenStopped(args)) control.abort();
  else process.exit(code);
}

// A reader that stops early, such as head, is no fault. An answer that is lost is: its exit code must not pass for a verdict.
let isLost = false;
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") return;
  if (!isLost) process.stderr.write(`lope: the answer cannot be written: ${fileTrouble(error)}\n`);
  isLost = true;
  process.exitCode = 2;
});
process.stderr.on("error", () => undefined);

const code = await lope(args, {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  stop: control.signal,
});
process.exitCode = isLost ? 2 : code;

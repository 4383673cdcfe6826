import { lope } from "./command.ts";

const control = new AbortController();
process.once("SIGINT", () => control.abort());
process.once("SIGTERM", () => control.abort());

// A reader that stops early, such as head, is no fault.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});

process.exitCode = await lope(process.argv.slice(2), {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  stop: control.signal,
});

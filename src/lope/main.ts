import { lope } from "./command.ts";

const control = new AbortController();
process.once("SIGINT", () => control.abort());
process.once("SIGTERM", () => control.abort());

process.exitCode = await lope(process.argv.slice(2), {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  stop: control.signal,
});

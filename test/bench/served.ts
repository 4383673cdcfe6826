import { execFileSync, spawn } from "node:child_process";
import { once } from "node:events";

/** The production build to be looked at. */
export interface ServedBuild {
  /** The folder that it is in. */
  readonly out: string;
  readonly port: number;
  /** What the build is given besides; null to take the one that is there. */
  readonly build: readonly string[] | null;
}

/** Serves the production build at its address while `work` goes on, by a process of its own. */
export async function served(
  { out, port, build }: ServedBuild,
  work: (address: string) => Promise<void>,
): Promise<void> {
  if (build)
    execFileSync("npx", ["vite", "build", "--outDir", out, "--emptyOutDir", ...build], { stdio: "ignore" });
  const at = ["--host", "127.0.0.1", "--port", String(port), "--strictPort"];
  const server = spawn("npx", ["vite", "preview", ...at, "--outDir", out], {
    stdio: "ignore",
    detached: true,
  });
  try {
    const address = `http://127.0.0.1:${port}/`;
    await answers(address);
    await work(address);
  } finally {
    if (server.pid !== undefined && server.exitCode === null) {
      process.kill(-server.pid);
      await once(server, "exit");
    }
  }
}

async function answers(url: string): Promise<void> {
  for (let tries = 0; tries < 100; tries += 1) {
    const up = await fetch(url).then(
      (answer) => answer.ok,
      () => false,
    );
    if (up) return;
    await new Promise((next) => setTimeout(next, 100));
  }
  throw new Error("the built app is not served");
}

import { existsSync } from "node:fs";
import { execFileSync } from "node:child_process";
import { chromium } from "@playwright/test";

/**
 * The path of a Chromium to test with, looked for in this order: CHROME_PATH, a headless shell, Chromium or Chrome
 * on the PATH, the test tool's own download, and last the one that ships inside a development dependency, so that
 * tests run on a machine with no browser at all.
 */
export async function browserPath(): Promise<string> {
  const named = process.env["CHROME_PATH"];
  if (named) return named;
  for (const name of ["chromium-headless-shell", "chromium", "google-chrome"]) {
    const path = onPath(name);
    if (path) return path;
  }
  if (existsSync(chromium.executablePath())) return chromium.executablePath();
  // The package unpacks its libraries only where it believes to run on this hosted runtime.
  process.env["AWS_LAMBDA_JS_RUNTIME"] ??= "nodejs20.x";
  const shipped = await import("@sparticuz/chromium");
  return shipped.default.executablePath();
}

/** Switches for an unattended browser: no sandbox (tests may run as root), no graphics card, no calls home. */
export const BROWSER_SWITCHES = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

function onPath(name: string): string | null {
  try {
    return (
      execFileSync("which", [name], { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }).trim() || null
    );
  } catch {
    return null;
  }
}
